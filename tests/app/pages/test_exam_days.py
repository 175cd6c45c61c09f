"""A day of exams is proposed with panels that keep the rules, and set all at once or not at all."""

import html
import re

import pytest

from app.storage.exams import StatedTie
from app.use_cases.demo import SCHOOL
from assessments.practicals.exam_day import slots
from curriculum.faults import RefusedError
from tests.app.pages.conftest import NOW, Town

DAY = {
    "practical": "practical-basic", "day": "2026-12-05", "first": "09:00", "pause": "15", "number": "3",
    "rooms": "Hall\nNorth room", "most": "6", "in_a_row": "3", "enrolments": ["enrolment-1", "enrolment-2"],
    "examiners": ["examiner-1", "examiner-2"], "experienced": ["examiner-1"],
}  # fmt: skip


@pytest.fixture
def fill(town: Town, form_token):  # noqa: ANN001, ANN201
    """Posts a form as the director."""
    client = town.as_role("director")
    token = form_token(client, "/exam-days/new")
    return lambda path, **typed: client.post(path, data={"form_token": token} | typed, headers={"accept": "text/html"})


def proposal(page: str) -> dict[str, list[str]]:
    """The hidden fields of a proposal, as its form sends them."""
    found: dict[str, list[str]] = {}
    first = page.split('action="/exam-days/new"')[0]
    for name, value in re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', first):
        if name != "form_token":
            found.setdefault(name, []).append(html.unescape(value))
    return found


def exams(town: Town) -> list:
    with town.store.reading(SCHOOL.id) as work:
        return [one for one in work.exams.all() if str(one.day) == DAY["day"]]


def test_a_day_is_proposed_then_set_once_however_often_it_is_sent(town: Town, fill) -> None:  # noqa: ANN001
    page = fill("/exam-days/new", **DAY).text
    assert "nothing is set yet" in page
    assert exams(town) == []
    changed = fill("/exam-days/new", **DAY | {"change": "yes"})
    assert changed.status_code == 200
    assert "North room</textarea>" in changed.text
    for _ in range(2):
        assert fill("/exam-days", **proposal(page)).status_code == 303
    kept = exams(town)
    assert {one.enrolment_id for one in kept} == {"enrolment-1", "enrolment-2"}
    # Two examiners for every exam, so no two at once (common practice).
    assert len({one.starts_minute for one in kept}) == 2
    with town.store.reading(SCHOOL.id) as work:
        assert all(set(work.exams.seats(one.id)) == {"examiner-1", "examiner-2"} for one in kept)


def test_one_exam_that_can_not_stand_keeps_all_from_being_set(town: Town, fill) -> None:  # noqa: ANN001
    sent = proposal(fill("/exam-days/new", **DAY).text)
    at = sent["exam"][1].split(" ")
    sent["exam"][1] = " ".join([*at[:2], sent["exam"][0].split(" ")[2], *at[3:]])
    answer = fill("/exam-days", **sent)
    assert answer.status_code == 422
    assert "has another exam at that time" in answer.text
    assert exams(town) == []


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"number": "1", "rooms": "Hall"}, "2 exams need 2 places in rooms; there are 1"),
        ({"most": "1"}, "2 exams need 4 seats"),
        ({"experienced": []}, "senior seats"),
        ({"rooms": " "}, "name the rooms"),
        ({"day": "soon"}, "choose the day"),
        ({"number": "40"}, "would end after midnight"),
    ],
)
def test_what_prevents_a_day_is_said_and_the_form_stays_as_typed(town: Town, fill, change, said) -> None:  # noqa: ANN001
    answer = fill("/exam-days/new", **DAY | change)
    assert answer.status_code == 422
    assert said in html.unescape(answer.text)
    assert re.search(r'value="enrolment-1"[^>]* checked', answer.text)


def test_whoever_taught_a_candidate_is_never_proposed_for_them(town: Town, fill) -> None:  # noqa: ANN001
    with town.store.writing(SCHOOL.id) as work:
        person = work.enrolments.by_id("enrolment-1").person_id
        work.exams.add_tie(StatedTie("t", "examiner-1", person, "taught", None, "director", NOW))
        work.commit()
    answer = fill("/exam-days/new", **DAY)
    assert answer.status_code == 422
    assert "has no allowed panel" in answer.text
    assert fill("/exam-days/new", **DAY | {"waived": ["examiner-1"]}).status_code == 422
    answer = fill("/exam-days/new", **DAY | {"waived": ["examiner-1"], "waiver": "Nobody else lives near."})
    assert "Piet Oosterhall taught this candidate." in answer.text
    assert fill("/exam-days", **proposal(answer.text)).status_code == 303
    with town.store.reading(SCHOOL.id) as work:
        kept = [waiver for one in exams(town) for waiver in work.exams.waivers(one.id)]
    assert [(one.person_id, one.rule, one.reason) for one in kept] == [
        ("examiner-1", "taught", "Nobody else lives near.")
    ]


def test_nobody_without_a_calibration_is_seated_but_for_a_reason(town: Town, fill) -> None:  # noqa: ANN001
    late = DAY | {"day": "2027-11-06"}
    answer = fill("/exam-days/new", **late)
    assert answer.status_code == 422
    assert "Piet Oosterhall has no calibration that holds on this day" in answer.text
    reason = {"waived": ["examiner-1", "examiner-2"], "waiver": "First season."}
    answer = fill("/exam-days/new", **late | reason)
    assert answer.text.count("has no calibration that holds.") == 4
    assert fill("/exam-days", **proposal(answer.text)).status_code == 303


def test_exams_follow_each_other_with_their_pause() -> None:
    assert slots(540, 60, 15, 3) == (540, 615, 690)
    with pytest.raises(RefusedError, match="midnight"):
        slots(540, 60, 15, 13)
