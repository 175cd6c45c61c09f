"""The director sets an exam, sees both sheets once both are sent, and decides; a tie needs a visible reason."""

import json
import re
from datetime import date

import pytest

from app.queries.exam_facts import practical_of
from app.storage.people import Person
from app.storage.seasons import KeptPicture
from app.use_cases.asker import Asker
from app.use_cases.demo import SCHOOL
from app.use_cases.exams import send_sheet
from assessments.practicals.sheets import CriticalSighting, Grade, Mark, Sheet
from tests.app.pages.conftest import NOW, Town

ID = "wanted-exam"
WANTED = {
    "id": ID, "enrolment": "enrolment-2", "practical": "practical-basic", "day": "2026-11-25", "starts": "09:30",
    "room": "North room", "examiner-0": "examiner-1", "examiner-1": "examiner-2",
}  # fmt: skip
PASS = {"outcome": "pass", "reason": "Clear of the cut, every floor reached.", "known": "0"}


@pytest.fixture
def director(town: Town, form_token):  # noqa: ANN001, ANN201
    """The director's client; `client.fill(path, **fields)` posts a form."""
    client = town.as_role("director")
    token = form_token(client, "/exams/new")
    client.fill = lambda path, **typed: client.post(
        path, data={"form_token": token} | typed, headers={"accept": "text/html"}
    )
    return client


def sheet(town: Town, examiner: str, level: int, **more) -> None:  # noqa: ANN003
    """Send an examiner's sheet with the same level everywhere."""
    with town.store.reading(SCHOOL.id) as work:
        made = practical_of(work, work.exams.by_id(ID))
    cells = made.cells()
    marks = tuple(Mark(cell.block, cell.criterion, cell.scale.lowest + level) for cell in cells)
    grades = tuple(Grade(block, 2) for block in sorted({cell.block for cell in cells}))
    one = Sheet(ID, examiner, made.id, made.edition, marks=marks, grades=grades, **more)
    send_sheet(town.store, Asker(SCHOOL, examiner, examiner, NOW), ID, one)


def set_with_sheets(town: Town, director, *levels: int) -> str:  # noqa: ANN001
    assert director.fill("/exams/new", **WANTED).status_code == 303
    for examiner, level in zip(("examiner-1", "examiner-2"), levels, strict=False):
        sheet(town, examiner, level)
    return director.get(f"/exams/{ID}").text


def test_an_empty_form_is_shown_again_with_every_reason(director) -> None:  # noqa: ANN001
    answer = director.fill("/exams/new", room="North room")
    assert answer.status_code == 422
    assert {"f-day", "f-starts"} <= set(re.findall(r'href="#(f-[\w-]+)"', answer.text))
    assert 'value="North room"' in answer.text


def test_an_exam_is_set_once_however_often_the_form_is_sent(town: Town, director) -> None:  # noqa: ANN001
    for _ in range(2):
        assert director.fill("/exams/new", **WANTED).headers["location"] == f"/exams/{ID}"
    assert director.fill("/exams/new", **WANTED | {"room": "Hall"}).status_code == 409
    with town.store.reading(SCHOOL.id) as work:
        assert len(work.record.of_subject(ID)) == 1


def test_what_one_examiner_sent_is_hidden_until_both_have_sent(town: Town, director) -> None:  # noqa: ANN001
    page = set_with_sheets(town, director, 2)
    assert "1 of 2 sheets sent" in page
    assert "How it came about" not in page
    sheet(town, "examiner-2", 2)
    page = director.get(f"/exams/{ID}").text
    assert "How it came about" in page
    assert "Total 66.6 %" in page


def test_a_pass_is_decided_and_counts_for_readiness(town: Town, director) -> None:  # noqa: ANN001
    set_with_sheets(town, director, 3, 3)
    assert director.fill(f"/exams/{ID}/decision", **PASS).status_code == 303
    page = director.get(f"/exams/{ID}").text
    assert "Clear of the cut, every floor reached." in page
    with town.store.reading(SCHOOL.id) as work:
        assert work.exams.passed("enrolment-2") == {"basic": date(2026, 11, 25)}


def keep_season_error(town: Town, error: float) -> None:
    """A season's picture that carries only its own absolute error, in marks."""
    content = json.dumps({"spread": {"as_it_is": {"error": {"estimate": error}}}})
    with town.store.writing(SCHOOL.id) as work:
        work.seasons.put_picture(KeptPicture("practical-basic", "of these sheets", content, NOW))
        work.commit()


def test_the_band_is_the_seasons_own_error_and_a_decision_keeps_the_one_it_was_made_by(town: Town, director) -> None:  # noqa: ANN001
    # One standard error about the cut, as score reports give it (AERA/APA/NCME Standards 2014, 2.13 to 2.16).
    assert "3 marks either side of the cut, as the practical" in set_with_sheets(town, director, 3, 3)
    keep_season_error(town, 30)
    page = director.get(f"/exams/{ID}").text
    assert "within 30 of the cut score of 75 %: too close to call" in page
    assert director.fill(f"/exams/{ID}/decision", **PASS).status_code == 422
    keep_season_error(town, 2)
    assert director.fill(f"/exams/{ID}/decision", **PASS).status_code == 303
    keep_season_error(town, 30)
    page = director.get(f"/exams/{ID}").text
    # The pass mark's own error of 1.6 in quadrature: sqrt(2 ** 2 + 1.6 ** 2) = 2.6.
    assert "2.6 marks either side of the cut: the season" in page
    assert "too close to call." not in page


def test_a_stale_tab_does_not_decide_a_second_time(town: Town, director) -> None:  # noqa: ANN001
    set_with_sheets(town, director, 3, 3)
    director.fill(f"/exams/{ID}/decision", **PASS)
    assert director.fill(f"/exams/{ID}/decision", **PASS | {"outcome": "fail"}).status_code == 409
    again = PASS | {"outcome": "fail", "known": "1", "reason": "The record shows another candidate."}
    assert director.fill(f"/exams/{ID}/decision", **again).status_code == 303
    page = director.get(f"/exams/{ID}").text
    assert "Replaced decision" in page
    assert "Clear of the cut" in page


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"reason": " "}, "a decision needs its reason"),
        ({"outcome": "perhaps"}, "choose what is decided"),
        ({"outcome": "refer"}, "names its parts"),
        ({"outcome": "void"}, "a void exam has one cause"),
    ],
)
def test_a_decision_that_can_not_stand_is_shown_again_as_typed(town: Town, director, change, said) -> None:  # noqa: ANN001
    set_with_sheets(town, director, 3, 3)
    answer = director.fill(f"/exams/{ID}/decision", **PASS | change)
    assert answer.status_code == 422
    assert said in answer.text
    with town.store.reading(SCHOOL.id) as work:
        assert work.exams.decisions(ID) == []


def test_nothing_but_void_is_decided_before_the_sheets_are_in(town: Town, director) -> None:  # noqa: ANN001
    set_with_sheets(town, director)
    assert director.fill(f"/exams/{ID}/decision", **PASS).status_code == 422
    void = {"outcome": "void", "void_cause": "set-in-error", "reason": "wrong practical", "known": "0"}
    assert director.fill(f"/exams/{ID}/decision", **void).status_code == 303
    assert director.fill("/exams/new", **WANTED | {"id": "another"}).status_code == 303


def test_a_critical_fault_seen_by_one_asks_for_a_further_examiner_who_marks_alone(town: Town, director) -> None:  # noqa: ANN001
    director.fill("/exams/new", **WANTED)
    sheet(town, "examiner-1", 3)
    sheet(town, "examiner-2", 3, critical=(CriticalSighting("no-spot", 300, "nobody at the head end"),))
    with town.store.writing(SCHOOL.id) as work:
        work.people.add(Person("examiner-3", "Further One", "x3@x.example", "h"), frozenset({"examiner"}), NOW)
        work.commit()
    assert director.fill(f"/exams/{ID}/decision", **PASS).status_code == 422
    assert director.fill(f"/exams/{ID}/further-examiner", examiner="examiner-1").status_code == 422
    further = {"examiner": "examiner-3"}
    assert director.fill(f"/exams/{ID}/further-examiner", **further).status_code == 422
    further |= {"further-waiver": "Joined today."}
    assert director.fill(f"/exams/{ID}/further-examiner", **further).status_code == 303
    sheet(town, "examiner-3", 3)
    page = director.get(f"/exams/{ID}").text
    assert "was not confirmed" in page
    assert director.fill(f"/exams/{ID}/decision", **PASS).status_code == 303


def test_who_taught_the_candidate_examines_only_by_a_waiver_in_view(town: Town, director) -> None:  # noqa: ANN001
    director.fill("/exams/new", **WANTED | {"enrolment": "enrolment-2"})
    tie = {"id": "tie", "person": "examiner-1", "kind": "taught", "last": "2026-01-10"}
    assert director.fill(f"/exams/{ID}/ties", **tie).status_code == 303
    assert "Piet Oosterhall taught Tomas Verrin, last on 10 Jan 2026." in director.get(f"/exams/{ID}").text
    other = WANTED | {"id": "final", "practical": "practical-final", "starts": "14:00"}
    refused = director.fill("/exams/new", **other)
    assert refused.status_code == 422
    assert "taught this candidate within" in refused.text
    why = "nobody else examines the final here"
    assert director.fill("/exams/new", **other | {"waiver-0": why, "waiver-1": "typed without need"}).status_code == 303
    page = director.get("/exams/final").text
    assert why in page
    assert "typed without need" not in page


def test_who_taught_the_candidate_decides_only_by_a_waiver_in_view(town: Town, director) -> None:  # noqa: ANN001
    set_with_sheets(town, director, 3, 3)
    director.fill(f"/exams/{ID}/ties", id="tie", person="director", kind="taught", last="")
    refused = director.fill(f"/exams/{ID}/decision", **PASS)
    assert refused.status_code == 422
    assert "Why nobody else can decide" in refused.text
    assert director.fill(f"/exams/{ID}/decision", **PASS | {"waiver": "the deputy is on leave"}).status_code == 303
    assert "the deputy is on leave" in director.get(f"/exams/{ID}").text


def test_the_list_puts_what_waits_for_the_director_first(town: Town, director) -> None:  # noqa: ANN001
    director.fill("/exams/new", **WANTED)
    later = WANTED | {"id": "later", "enrolment": "enrolment-1", "day": "2026-12-24"}
    assert director.fill("/exams/new", **later).status_code == 303
    page = director.get("/exams").text
    assert page.index("To be done") < page.index("Coming")


def test_those_concerned_are_told_by_mail_once(town: Town, director) -> None:  # noqa: ANN001
    set_with_sheets(town, director, 3, 3)
    director.fill("/exams/new", **WANTED)
    director.fill(f"/exams/{ID}/decision", **PASS)
    with town.store.reading(SCHOOL.id) as work:
        mails = work.mail.newest(20)
    told = sorted((mail.to_name, mail.subject) for mail in mails if "exam" in mail.subject)
    assert [name for name, _ in told] == ["Piet Oosterhall", "Runa Calloway", "Tomas Verrin", "Tomas Verrin"]
    assert any("Clear of the cut, every floor reached." in mail.words for mail in mails)


def test_nobody_is_seated_beyond_the_panel_that_was_checked(town: Town, director) -> None:  # noqa: ANN001
    refused = director.fill("/exams/new", **WANTED | {"examiner-2": "director"})
    assert refused.status_code == 422
    with town.store.reading(SCHOOL.id) as work:
        assert work.exams.by_id(ID) is None
