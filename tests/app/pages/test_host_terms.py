"""Hosts set their own terms: how many observers, to be asked first, whom they take, and a pause."""

from datetime import timedelta

import pytest

from app.use_cases.demo import SCHOOL
from app.web.visit import token_hash
from tests.app.pages.conftest import NOW, Town

LINK = "/h/halden-row.a-link-that-works"
LOGGED = {
    "id": "a", "version": "0", "day": "2026-11-25", "start": "06:00", "end": "07:00", "host": "host-1",
    "activity-0": "observation", "apparatus-0": "reformer",
}  # fmt: skip


class Scene:
    """A host with a link and a trainee; `tomorrow` moves the clock a day on."""

    def __init__(self, town: Town, form_token) -> None:  # noqa: ANN001
        self.town, self.token = town, form_token
        with town.store.writing(SCHOOL.id) as work:
            work.hosts.add_link(token_hash("a-link-that-works"), "host-1", NOW, NOW.replace(year=2027))
            work.commit()
        self.trainee, self.host = town.as_role("trainee"), town.visitor()

    def tomorrow(self) -> None:
        self.town.app.state.now = lambda: NOW + timedelta(days=1)

    def by_host(self, path: str, **data: str) -> int:
        return self.host.post(
            f"{LINK}{path}", data={"form_token": self.token(self.host, f"{LINK}/terms")} | data
        ).status_code

    def log(self, **changes: str):  # noqa: ANN201
        return self.trainee.post("/today", data=LOGGED | {"form_token": self.token(self.trainee, "/today")} | changes)

    def mails(self, words: str) -> int:
        with self.town.store.reading(SCHOOL.id) as work:
            return sum(words in f"{one.subject} {one.words}" for one in work.mail.newest(30))


@pytest.fixture
def scene(town: Town, form_token) -> Scene:  # noqa: ANN001
    return Scene(town, form_token)


def test_who_wants_to_be_asked_first_is_asked_and_takes_or_declines(scene: Scene) -> None:
    assert scene.by_host("/terms", ask_first="yes", observers="2") == 303
    scene.tomorrow()
    later = {"id": "b", "day": "2026-11-26"}
    assert scene.log().status_code == 303, "what took place before they said so"
    assert "wants to be asked first" in scene.log(**later).text
    page = scene.trainee.get("/host-teachers").text
    assert "2 of 2 observer&#39;s places free" in page
    ask = {"form_token": scene.token(scene.trainee, "/host-teachers")}
    assert [scene.trainee.post("/host-teachers/host-1/ask", data=ask).status_code for _ in range(2)] == [303, 409]
    assert scene.mails("Ida Marlowe would like to come") == 1
    assert [scene.by_host("/trainees/trainee-1", answer="take") for _ in range(2)] == [303, 303]
    assert scene.mails("takes you as a trainee") == 1
    assert scene.log(**later).status_code == 303


def test_who_is_declined_puts_nothing_down_from_the_next_day_on(scene: Scene) -> None:
    assert scene.by_host("/trainees/trainee-1", answer="decline") == 303
    assert scene.log().status_code == 303
    scene.tomorrow()
    refused = scene.log(id="b", day="2026-11-26")
    assert (refused.status_code, "does not take you on" in refused.text) == (422, True)
    assert "declined on" in scene.trainee.get("/host-teachers").text
    assert scene.by_host("/trainees/director", answer="take") == 404, "nobody who never came or asked"


def test_a_host_pauses_and_comes_back_but_not_from_the_schools_pause(scene: Scene) -> None:
    assert scene.by_host("/pause", **{"pause-reason": "A baby."}) == 303
    assert 'value="host-1"' not in scene.trainee.get("/today").text
    director = scene.town.as_role("director")
    assert "A baby." in director.get("/hosts/host-1").text
    assert scene.by_host("/resume") == 303
    data = {"form_token": scene.token(director, "/hosts/host-1"), "pause-reason": "Insurance."}
    assert director.post("/hosts/host-1/pause", data=data).status_code == 303
    assert scene.by_host("/resume") == 403
    assert "The school paused you" in scene.host.get(f"{LINK}/terms").text


def test_more_observers_than_the_host_takes_are_named_where_they_sign(scene: Scene) -> None:
    assert scene.by_host("/terms", observers="0") == 422
    assert scene.by_host("/terms", observers="1") == 303
    scene.log()
    with scene.town.store.reading(SCHOOL.id) as work:
        mine = work.ledger.now("a")
    with scene.town.store.writing(SCHOOL.id) as work:
        other = type(mine)("other", mine.day, mine.start + 30, mine.end, mine.parts, 0, "host-1", state="waiting")
        work.ledger.add_version(other, "enrolment-2", None, "", "trainee-2", NOW)
        work.commit()
    assert "2 trainees watched at once; you take 1" in scene.host.get(LINK).text
