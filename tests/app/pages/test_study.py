"""Five to recall: answered without script, each answer taken once however often it is sent, the last taken back."""

import re
from datetime import date, timedelta
from itertools import permutations

import pytest

from app.main import create_app
from app.settings import Settings
from app.use_cases.demo import SCHOOL
from curriculum.study.spacing import replayed
from tests.app.pages.conftest import NOW, Town

DAY = date(2026, 11, 25)
PERSON = "trainee-1"
SENT = {"accept": "application/json"}


@pytest.fixture
def trainee(town: Town, form_token):  # noqa: ANN001, ANN201
    """The trainee's client: `fill` posts a form as a page does, `later` as a device does."""
    client = town.as_role("trainee")
    token = form_token(client, "/study")
    page = {"accept": "text/html"}
    client.fill = lambda path, **typed: client.post(path, data={"form_token": token} | typed, headers=page)
    client.later = lambda path, **typed: client.post(path, data={"form_token": token} | typed, headers=SENT)
    return client


def asked(page: str) -> list[tuple[str, str]]:
    """(id of the answer, question) of what a page asks, as it is asked."""
    return re.findall(r'name="id" value="([\w-]+)"><input type="hidden" name="question" value="([^"]+)"', page)


def answer_all(client, how: str, number: int) -> list[str]:  # noqa: ANN001
    questions = []
    for _ in range(number):
        id, question = asked(client.get("/study").text)[0]
        assert client.fill("/study", id=id, question=question, answer=how).status_code == 303
        questions.append(question)
    return questions


def memories(town: Town) -> dict:
    with town.store.reading(SCHOOL.id) as work:
        return work.recalls.memories(PERSON)


def number_of_answers(town: Town) -> int:
    with town.store.reading(SCHOOL.id) as work:
        return work.recalls.next_number(PERSON) - 1


def test_five_are_asked_and_one_is_shown(trainee) -> None:  # noqa: ANN001
    page = trainee.get("/study").text
    assert len(asked(page)) == 5
    assert page.count('<article class="recall"') - len(re.findall(r'<article class="recall"[^>]* hidden>', page)) == 1
    assert "1 of 5" in page
    assert asked(page)[0][1] == asked(trainee.get("/study").text)[0][1]


def test_five_answers_without_script_end_the_sitting_and_five_more_can_be_asked_for(town: Town, trainee) -> None:  # noqa: ANN001
    questions = answer_all(trainee, "known", 5)
    assert len(set(questions)) == 5
    page = trainee.get("/study").text
    assert asked(page) == []
    assert "That was the five." in page
    more = asked(trainee.get("/study?more=1").text)
    assert len(more) == 5
    assert not {question for _, question in more} & set(questions)
    assert set(memories(town)) == set(questions)
    assert all(one.due_on == DAY + timedelta(days=2) for one in memories(town).values())


def test_what_was_blank_is_due_tomorrow_and_asked_first(town: Town, trainee) -> None:  # noqa: ANN001
    questions = answer_all(trainee, "blank", 2)
    tomorrow = create_app(
        Settings(town.store.engine.url.render_as_string(hide_password=False)), now=lambda: NOW + timedelta(days=1)
    )
    page = Town(tomorrow).as_role("trainee").get("/study").text
    tomorrow.state.store.engine.dispose()
    assert {question for _, question in asked(page)[:2]} == set(questions)
    assert "2 questions are due today" in page


def test_an_answer_sent_again_is_taken_once(town: Town, trainee) -> None:  # noqa: ANN001
    _, question = asked(trainee.get("/study").text)[0]
    sent = {"id": "made-on-a-phone", "question": question, "answer": "teach", "at": "2026-11-24T10:00:00.000Z"}
    assert [trainee.later("/study", **sent).status_code for _ in range(3)] == [204, 204, 204]
    assert number_of_answers(town) == 1
    assert memories(town)[question] == replayed([("teach", date(2026, 11, 24))])


def test_the_same_id_with_another_answer_is_not_taken_and_says_why(town: Town, trainee) -> None:  # noqa: ANN001
    _, question = asked(trainee.get("/study").text)[0]
    trainee.later("/study", id="one", question=question, answer="teach")
    other = trainee.later("/study", id="one", question=question, answer="blank")
    assert (other.status_code, len(other.json()["reasons"])) == (409, 1)
    assert memories(town)[question].answer == "teach"


@pytest.mark.parametrize("order", list(permutations(range(3)))[1:])
def test_answers_that_come_in_late_fall_into_their_place(town: Town, trainee, order: tuple[int, ...]) -> None:  # noqa: ANN001
    """Whatever the order in which a device sends them, the days decide."""
    _, question = asked(trainee.get("/study").text)[0]
    given = [("blank", 20), ("known", 21), ("teach", 24)]
    for place in order:
        how, day = given[place]
        sent = {"id": f"a{place}", "question": question, "answer": how, "at": f"2026-11-{day}T12:00:00Z"}
        assert trainee.later("/study", **sent).status_code == 204
    assert memories(town)[question] == replayed([(how, date(2026, 11, day)) for how, day in given])


@pytest.mark.parametrize(
    ("at", "day"),
    [
        ("2031-01-01T00:00:00Z", DAY),
        ("1970-01-01T00:00:00Z", DAY - timedelta(days=60)),
        ("yesterday", DAY),
        ("2026-11-24T23:30:00Z", DAY),
    ],
)
def test_a_devices_wrong_clock_is_kept_within_bounds(town: Town, trainee, at: str, day: date) -> None:  # noqa: ANN001
    """The last is half past midnight in the school's own zone."""
    _, question = asked(trainee.get("/study").text)[0]
    trainee.later("/study", id="x", question=question, answer="known", at=at)
    assert memories(town)[question].last_on == day


def test_the_last_answer_is_taken_back_once(town: Town, trainee) -> None:  # noqa: ANN001
    first, second = answer_all(trainee, "known", 2)
    last = re.search(r'action="/study/undo".*?name="id" value="([\w-]+)"', trainee.get("/study").text, re.S).group(1)
    assert trainee.fill("/study/undo", id=last).status_code == 303
    assert set(memories(town)) == {first}
    assert asked(trainee.get("/study").text)[0][1] == second
    assert trainee.later("/study/undo", id=last).status_code == 204
    assert set(memories(town)) == {first}


def test_only_the_last_answer_is_taken_back_and_only_ones_own(town: Town, trainee) -> None:  # noqa: ANN001
    questions = [question for _, question in asked(trainee.get("/study").text)]
    for number in (0, 1):
        trainee.later("/study", id=f"a{number}", question=questions[number], answer="known")
    refused = trainee.later("/study/undo", id="a0")
    assert (refused.status_code, "another came in" in refused.json()["reasons"][0]) == (409, True)
    assert trainee.later("/study/undo", id="no-such").status_code == 404
    assert len(memories(town)) == 2


def test_everything_wrong_is_said_at_once_and_nothing_is_kept(town: Town, trainee) -> None:  # noqa: ANN001
    refused = trainee.later("/study", id="x" * 40, question="next:no-such", answer="perhaps")
    assert (refused.status_code, len(refused.json()["reasons"])) == (422, 2)
    page = trainee.fill("/study", id="x", question="next:no-such", answer="known")
    assert page.status_code == 422
    assert "your edition does not have this question" in page.text
    assert number_of_answers(town) == 0


def test_apparatus_and_level_are_chosen_and_kept(trainee) -> None:  # noqa: ANN001
    answer = trainee.fill("/study/choice", apparatus=["mat", "no-such"], level="basic")
    assert answer.status_code == 303
    page = trainee.get("/study").text
    assert {question.split(":")[1].partition("-")[0] for _, question in asked(page)} == {"mat"}
    assert 'value="mat" checked' in page
    assert '<option value="basic" selected>' in page


def test_how_much_of_each_series_is_known(trainee) -> None:  # noqa: ANN001
    trainee.fill("/study/choice", apparatus="reformer", level="basic")
    for how in ("known", "teach", "prompted", "blank"):
        answer_all(trainee, how, 1)
    page = trainee.get("/study/coverage").text
    rows = re.findall(r'</a></th>((?:\s*<td class="number">[\d,]+</td>)+)', page)
    counted = [[int(cell.replace(",", "")) for cell in re.findall(r">([\d,]+)<", row)] for row in rows]
    known, due, _, answered = (sum(column) for column in zip(*counted, strict=True))
    assert (known, answered, due) == (2, 4, 0)


def test_cautions_carry_the_frame_on_the_page(town: Town, trainee) -> None:  # noqa: ANN001
    framed = 0
    for _ in range(3):
        page = trainee.get("/study?more=1").text
        for article in page.split('<article class="recall"')[1:]:
            if 'data-question="caution:' in article:
                framed += 1
                assert "Teaching guidance, not medical advice." in article.split("</article>")[0]
        for id, question in asked(page):
            trainee.fill("/study", id=id, question=question, answer="known")
    assert framed


def test_the_worker_is_a_script_at_the_root_and_the_token_is_ones_own(town: Town, trainee, form_token) -> None:  # noqa: ANN001
    worker = town.visitor().get("/offline-worker.js")
    assert worker.headers["content-type"].startswith("text/javascript")
    who = trainee.get("/offline/self", headers=SENT).json()
    assert who == {"person": f"{SCHOOL.id}.{PERSON}", "form_token": form_token(trainee, "/study")}
    assert town.visitor().get("/offline/self", headers=SENT).status_code == 401
