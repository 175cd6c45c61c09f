"""A lesson is gone through moment by moment, once; at the end the figures are those worked by hand.

Normal deviates: z(.85) 1.036, z(.75) 0.674, z(.25) -0.674, z(.15) -1.036, and the heights of the curve there 0.2332 and
0.3178; Macmillan NA, Creelman CD (2005) Detection Theory, 2nd ed., table A5.1, and Abramowitz M, Stegun IA (1964),
table 26.1; both from memory. With nine moments of each kind the log-linear correction makes round rates: 8 hits
(8 + .5) / (9 + 1) = .85, 2 false alarms .25. So d′ = 1.036 + 0.674 = 1.71, c = -(1.036 - 0.674) / 2 = -0.18, and
SE = √(.85 × .15 / (10 × .2332²) + .75 × .25 / (10 × .3178²)) = √(.2344 + .1857) = 0.648, so 0.44 to 2.98.
"""

import re
from dataclasses import dataclass, field
from datetime import timedelta

import pytest

from app.storage.editions import Edition
from app.storage.people import Person
from app.storage.spotting import Attempt
from app.use_cases.demo import SCHOOL
from app.use_cases.demo_spotting import add_demo_spotting
from assessments.spotting.scoring import Answer
from tests.app.pages.conftest import NOW, OTHER, Town
from tests.app.pages.test_every_text import Reader, disguised_school, disguised_town, known_words, no_leaks

__all__ = ["disguised_school", "disguised_town"]

FAULT = "fault: {what: The planted thing., why: For a reason., weight: safety, say: Better so.}"


def lessons_text(each: int, examiners: str = "panel") -> str:
    """A lesson `nine` with so many moments of each kind: planted ones say so in the client's line."""
    moments = "".join(
        f"      - {{id: f{n}, client: Planted {n}., teacher: Counts., {FAULT}}}\n"
        f"      - {{id: s{n}, client: Quiet {n}., teacher: Counts., sound: It is fine.}}\n"
        for n in range(each)
    )
    head = f"title: Lessons\nframe: Invented lessons.\nedition: two\nexaminers: {examiners}\nlessons:\n"
    return f"{head}  - id: nine\n    title: Nine of each\n    setting: A client.\n    moments:\n{moments}"


def publish(town: Town, each: int, examiners: str = "panel", id: str = "spotting-two") -> None:
    text = {"lessons.yaml": lessons_text(each, examiners)}
    with town.store.writing(SCHOOL.id) as work:
        work.editions.add(Edition(id, "spotting", id, "two", text, NOW - timedelta(days=1)))
        work.commit()


@dataclass
class Spotter:
    """Somebody who goes through lessons in a browser; `seen` are the moments in the order they came."""

    client: object
    token: str
    seen: list[str] = field(default_factory=list)

    def post(self, path: str, **typed: str):  # noqa: ANN201
        return self.client.post(path, data={"form_token": self.token} | typed, headers={"accept": "text/html"})

    def begin(self, lesson: str = "nine") -> None:
        assert self.post(f"/spotting/{lesson}").status_code == 303

    def due(self, lesson: str = "nine") -> tuple[str, str, str]:
        """The action of the form, the place, and what the client does."""
        page = self.client.get(f"/spotting/{lesson}").text
        action = re.search(rf'action="(/spotting/{lesson}/[\w-]+)"', page).group(1)
        place = re.search(r'name="place" value="(\d+)"', page).group(1)
        return action, place, re.search(r"<dd>(.*?)</dd>", page).group(1)

    def say(self, verdict: str, lesson: str = "nine", **more: str):  # noqa: ANN201
        action, place, client = self.due(lesson)
        self.seen.append(client)
        return self.post(action, place=place, verdict=verdict, **more)

    def through(self, each: int, misses: int, alarms: int) -> str:
        """Go through the lesson, missing so many faults and calling so many sound moments wrong; where it ends."""
        self.begin()
        for _ in range(2 * each):
            planted = self.due()[2].startswith("Planted")
            if planted:
                wrong, misses = misses <= 0, misses - 1
            else:
                wrong, alarms = alarms > 0, alarms - 1
            answer = self.say("wrong-sure" if wrong else "sound-sure", kind="safety" if wrong else "")
        return answer.headers["location"]


@pytest.fixture
def spotter(town: Town, form_token) -> Spotter:  # noqa: ANN001
    client = town.as_role("trainee")
    return Spotter(client, form_token(client, "/plans"))


def test_the_figures_at_the_end_are_those_worked_by_hand(town: Town, spotter: Spotter) -> None:
    publish(town, 9)
    page = spotter.client.get(spotter.through(9, misses=1, alarms=2)).text
    assert "You found 8 of 9 planted faults and called 2 of 9 sound moments wrong." in page
    assert "Your eye for faults is 1.7 (0 is guessing, 3 is near perfect; likely between 0.4 and 3.0)." in page
    assert "1.71 (0.44 to 2.98)" in page
    assert "-0.18 (-0.82 to 0.45)" in page
    assert "No leaning can be told" in page
    assert "These are still few moments" in page
    assert "Of 8 found faults whose kind you named, 8 were of that kind." in page


@pytest.mark.parametrize(
    ("misses", "alarms", "said"),
    [
        # .05 and .05: z -1.645 both, d′ 0, c 1.645; .95 and .95: c -1.645; SE(c) 0.5 × √(2 × .0475 / (10 × .1031²)) = 0.47.
        (9, 0, "You lean towards letting things pass"),
        (0, 9, "You lean towards calling things wrong"),
    ],
)
def test_a_leaning_is_said_when_its_range_keeps_clear_of_nothing(
    town: Town, spotter: Spotter, misses: int, alarms: int, said: str
) -> None:
    publish(town, 9)
    assert said in spotter.client.get(spotter.through(9, misses, alarms)).text


def test_too_little_is_kindly_no_figure_until_it_adds_up(town: Town, spotter: Spotter) -> None:
    publish(town, 3)
    page = spotter.client.get(spotter.through(3, misses=0, alarms=1)).text
    assert "You found 3 of 3 planted faults and called 1 of 3 sound moments wrong." in page
    assert "it takes 5 planted and 5 sound moments" in page
    assert "Your eye for faults is" not in page


def test_what_was_planted_is_shown_with_what_one_would_say(town: Town, spotter: Spotter) -> None:
    publish(town, 2)
    page = spotter.client.get(spotter.through(2, misses=1, alarms=1)).text
    assert page.count("The planted thing.") == 2
    assert page.count("Better so.") == 2
    assert all(
        words in page
        for words in ("A planted fault, missed", "A planted fault, found", "Sound, but called wrong", "It is fine.")
    )


def test_nothing_is_told_before_the_end(town: Town, spotter: Spotter) -> None:
    publish(town, 2)
    spotter.begin()
    action, _, _ = spotter.due()
    assert spotter.client.get(action).headers["location"] == "/spotting/nine"
    spotter.say("wrong-sure")
    assert not {"The planted thing.", "It is fine.", "Better so."} & set(
        re.findall(r"[A-Z][\w ]+\.", spotter.client.get("/spotting/nine").text)
    )


def test_every_moment_comes_once_in_the_order_of_the_seed(town: Town, spotter: Spotter) -> None:
    publish(town, 9)
    spotter.begin()
    for _ in range(18):
        spotter.say("wrong-unsure")
    assert sorted(spotter.seen) == sorted([f"Planted {n}." for n in range(9)] + [f"Quiet {n}." for n in range(9)])
    assert spotter.seen != [f"{kind} {n}." for n in range(9) for kind in ("Planted", "Quiet")]


def test_pressed_twice_counts_once_and_there_is_no_way_back(town: Town, spotter: Spotter) -> None:
    publish(town, 2)
    spotter.begin()
    spotter.begin()
    action, place, _ = spotter.due()
    for _ in range(2):
        assert spotter.post(action, place=place, verdict="wrong-sure").headers["location"] == "/spotting/nine"
    assert spotter.due()[1] == "2"
    spotter.post(action, place="1", verdict="sound-sure")
    assert "the first answer stands" in spotter.client.get("/spotting/nine").text
    (known,) = kept(town)
    assert [(one.wrong, one.sure) for one in known.answers] == [(True, True)]


def test_a_moment_that_is_not_due_is_not_taken(town: Town, spotter: Spotter) -> None:
    publish(town, 2)
    spotter.begin()
    action, _, _ = spotter.due()
    for place in ("2", "0", "5", "999"):
        assert spotter.post(action, place=place, verdict="wrong-sure").status_code == 409
    assert kept(town)[0].answers == ()


def test_a_refused_answer_says_every_reason_and_keeps_what_was_chosen(town: Town, spotter: Spotter) -> None:
    publish(town, 2)
    spotter.begin()
    action, place, _ = spotter.due()
    page = spotter.post(action, place=place, verdict="maybe", kind="style")
    assert page.status_code == 422
    assert page.text.count('<li><a href="#f-') == 2
    page = spotter.post(action, place=place, verdict="", kind="form")
    assert 'value="form" checked' in page.text
    assert kept(town)[0].answers == ()


def test_the_second_time_through_does_not_count_towards_the_eye(town: Town, spotter: Spotter) -> None:
    publish(town, 9)
    spotter.through(9, misses=1, alarms=2)
    again = spotter.through(9, misses=0, alarms=0)
    assert "You had been through this lesson before" in spotter.client.get(again).text
    page = spotter.client.get("/spotting").text
    assert "You found 8 of 9 planted faults" in page
    assert page.count('class="range') - page.count('class="range again') >= 1
    assert "2.78" not in page.split("Your eye so far")[1].split("Over time")[0]


def test_an_open_attempt_goes_on_in_the_edition_it_was_begun_in(town: Town, spotter: Spotter) -> None:
    publish(town, 2)
    spotter.begin()
    with town.store.writing(SCHOOL.id) as work:
        text = {"lessons.yaml": lessons_text(9)}
        work.editions.add(Edition("spotting-three", "spotting", "spotting-two", "three", text, NOW))
        work.commit()
    assert "1 of 4" in spotter.client.get("/spotting/nine").text


def test_a_persons_attempts_are_theirs_alone(town: Town, spotter: Spotter, form_token) -> None:  # noqa: ANN001
    publish(town, 2)
    over = spotter.through(2, misses=0, alarms=0)
    spotter.begin()
    action, _, _ = spotter.due()
    client = town.as_role("examiner")
    other = Spotter(client, form_token(client, "/plans"))
    for path in (over, action):
        assert client.get(path, headers={"accept": "text/html"}).status_code == 404
        assert other.post(path, place="1", verdict="wrong-sure").status_code == 404
    assert "Your eye so far" not in client.get("/spotting").text
    assert town.as_role("trainee", OTHER).get(over, headers={"accept": "text/html"}).status_code == 404
    assert all(len(one.answers) in (0, 4) for one in kept(town))


def test_an_attempt_stands_under_its_own_lesson(town: Town, spotter: Spotter) -> None:
    publish(town, 2)
    over = spotter.through(2, misses=0, alarms=0)
    elsewhere = over.replace("/nine/", "/first-mat/")
    assert spotter.client.get(elsewhere, headers={"accept": "text/html"}).status_code == 404


def test_who_reads_the_answers_is_said_before_the_first(town: Town) -> None:
    publish(town, 2, "each")
    named = "its director sees each examiner"
    assert named in town.as_role("examiner").get("/spotting/nine").text
    assert named not in town.as_role("trainee").get("/spotting/nine").text


def kept(town: Town) -> tuple:
    with town.store.reading(SCHOOL.id) as work:
        return work.spotting.all()


def spotters(town: Town, number: int, role: str, edition: str = "spotting-two") -> None:
    """So many new people who went through `nine`, two moments of each kind: all found 1 of 2 and raised no alarm."""
    with town.store.writing(SCHOOL.id) as work:
        for n in range(number):
            person = Person(f"{role}-new-{n}", f"Somebody {n}", f"new-{role}-{n}@halden-row.example", "none")
            work.people.add(person, frozenset({role}), NOW)
            attempt = Attempt(f"{role}-try-{n}", person.id, edition, "nine", 1, "seed", NOW)
            work.spotting.add(attempt)
            for place, (moment, wrong) in enumerate(
                (("f0", True), ("f1", False), ("s0", False), ("s1", False)), start=1
            ):
                work.spotting.add_answer(attempt.id, place, Answer(moment, wrong, True), NOW)
        work.commit()


@pytest.mark.parametrize("number", [4, 5])
def test_a_director_reads_a_group_only_where_nobody_can_be_made_out(town: Town, number: int) -> None:
    publish(town, 2)
    spotters(town, number, "trainee")
    page = town.as_role("director").get("/spotters").text
    assert ("Together they found 5 of 10 planted faults and called 0 of 10 sound moments wrong." in page) == (
        number > 4
    )
    assert ("Nine of each" in page) == (number > 4)
    assert ("4 people have been through a lesson" in page) == (number < 5)
    assert "Somebody" not in page


def test_a_lesson_of_few_people_is_in_no_figure_of_the_group(town: Town, spotter: Spotter) -> None:
    """Else it could be had by taking the lessons that are shown from the whole."""
    publish(town, 2)
    spotters(town, 5, "trainee")
    spotter.begin()
    for _ in range(4):
        spotter.say("wrong-sure")
    before = town.as_role("director").get("/spotters").text
    assert "Together they found 7 of 12 planted faults" in before
    text = {"lessons.yaml": lessons_text(3).replace("id: nine", "id: other")}
    with town.store.writing(SCHOOL.id) as work:
        work.editions.add(Edition("spotting-other", "spotting", "spotting-other", "1", text, NOW))
        work.commit()
    spotter.begin("other")
    for _ in range(6):
        spotter.say("wrong-sure", "other")
    assert "Together they found 7 of 12 planted faults" in town.as_role("director").get("/spotters").text


@pytest.mark.parametrize("examiners", ["panel", "each"])
def test_examiners_are_named_only_if_the_edition_said_so_before(town: Town, examiners: str) -> None:
    """What an edition promised holds for its attempts: publishing another one later names nobody."""
    publish(town, 2, examiners)
    spotters(town, 1, "examiner")
    publish(town, 2, "each", "spotting-later")
    page = town.as_role("director").get("/spotters").text
    assert ("Somebody 0" in page) == (examiners == "each")
    assert ("1 of 2" in page) == (examiners == "each")


def test_a_trainee_is_never_named(town: Town) -> None:
    publish(town, 2, "each")
    spotters(town, 5, "trainee")
    assert "Somebody" not in town.as_role("director").get("/spotters").text


def test_every_text_of_a_group_speaks_the_readers_language(disguised_town: Town) -> None:
    publish(disguised_town, 2, "each")
    for role in ("trainee", "examiner"):
        spotters(disguised_town, 5, role)
    reader = Reader(disguised_town, disguised_town.as_role("director"), "director", known_words(disguised_town))
    reader.open("GET", "/spotters")
    assert reader.statuses[200] == 1
    no_leaks(reader.leaks)


def test_the_demo_school_can_be_gone_through_and_fills_its_own_attempts(town: Town, spotter: Spotter) -> None:
    add_demo_spotting(town.store, SCHOOL, NOW)
    assert spotter.due("chair-and-table")[1] == "5"
    assert "done 2 times" in spotter.client.get("/spotting").text
    page = spotter.client.get("/spotting/first-mat/spotting-trainee-1-1").text
    assert page.count("What one would say") == 6


@pytest.mark.parametrize("role", ["trainee", "examiner"])
def test_every_text_of_a_lesson_speaks_the_readers_language(disguised_town: Town, role: str) -> None:
    """Start, moment, refused answer, end, and the line over time."""
    add_demo_spotting(disguised_town.store, SCHOOL, NOW)
    reader = Reader(disguised_town, disguised_town.as_role(role), role, known_words(disguised_town))
    for path in ("", "/first-mat", "/chair-and-table", f"/first-mat/spotting-{role}-1-1"):
        reader.open("GET", f"/spotting{path}")
    reader.forms = {action: fields for action, fields in reader.forms.items() if action.startswith("/spotting")}
    reader.send()
    assert (reader.statuses[200] >= 4, reader.statuses[422] >= 1) == (True, True)
    no_leaks(reader.leaks)
