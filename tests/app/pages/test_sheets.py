"""Two examiners score an exam in the pages: kept with gaps, sent whole, never twice; apart, they talk.

The exam is the one of the town; the levels are invented. That a total is the weighted average of (level − lowest) /
(highest − lowest) stands in the practical's own rules.
"""

import re

import pytest

from app.queries.exam_facts import practical_of, result_of
from app.use_cases.demo import SCHOOL
from tests.app.pages.conftest import OTHER, PASSWORD, Town

PATH = "/sheets/exam"


@pytest.fixture
def examiner(town: Town):  # noqa: ANN201
    """A function: the client of one of the two examiners; `client.fill(path, **fields)` posts a form."""

    def signed_in(email: str = "examiner@halden-row.example", page: str = "/sheets"):  # noqa: ANN202
        client = town.visitor()
        client.post(f"/sign-in/{SCHOOL.slug}", data={"email": email, "password": PASSWORD})
        client.headers["accept"] = "text/html"
        token = re.search(r'name="form_token" value="(\w+)"', client.get(page).text).group(1)
        client.fill = lambda path=PATH, **typed: client.post(path, data={"form_token": token} | typed)
        return client

    return signed_in


@pytest.fixture
def both(examiner):  # noqa: ANN001, ANN201
    return examiner(), examiner("examiner2@halden-row.example")


def whole(town: Town, level: int = 3, **more: str) -> dict[str, str]:
    """Every criterion at one level, every block with a grade."""
    with town.store.reading(SCHOOL.id) as work:
        cells = practical_of(work, work.exams.by_id("exam")).cells()
    marks = {f"marks.{cell.block}.{cell.criterion}": str(level) for cell in cells}
    return marks | {f"grades.{cell.block}": "2" for cell in cells} | {"act": "send"} | more


def sheets(town: Town) -> list[tuple[str, int]]:
    with town.store.reading(SCHOOL.id) as work:
        return [(one.examiner_id, one.version) for one in work.exams.sheets("exam")]


def test_a_draft_is_kept_with_gaps_and_shown_again(town: Town, examiner) -> None:  # noqa: ANN001
    client = examiner()
    typed = {"marks.opening.A": "4", "reason.opening.B": "could not see", "noticed.reformer-hundred": "prompted"}
    answer = client.fill(act="keep-opening", **typed)
    assert answer.status_code == 303, answer.text
    assert answer.headers["location"] == f"{PATH}#block-opening"
    page = client.get(PATH).text
    assert re.search(r'name="marks.opening.A" value="4"[^>]* checked', page)
    assert "could not see" in page
    assert re.search(r'name="noticed.reformer-hundred" value="prompted"[^>]* checked', page)
    assert sheets(town) == []


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("marks.opening.A", "9", "choose one of what is offered"),
        ("grades.opening", "17", "choose one of what is offered"),
        ("manner.opening.A", "somehow", "choose one of what is offered"),
        ("critical-at.springs", "soon", "minutes since the start"),
        ("critical-why.springs", "not looked at", "tick it if you saw it"),
        ("instead.reformer-hundred", "frog", "tick “swapped”"),
        ("note", "x" * 4001, "keep this under 4,000 letters"),
    ],
)
def test_what_can_not_be_read_is_refused_at_its_place_and_nothing_is_kept(town, examiner, field, value, said) -> None:  # noqa: ANN001
    client = examiner()
    answer = client.fill(act="keep", **{field: value, "reason.opening.C": "as typed"})
    assert answer.status_code == 422
    assert said in answer.text
    assert "as typed" in answer.text
    with town.store.reading(SCHOOL.id) as work:
        assert work.exams.draft("exam", "examiner-1") is None


def test_sending_names_every_gap_at_once_and_keeps_the_form_as_typed(town: Town, examiner) -> None:  # noqa: ANN001
    typed = whole(town, note="as typed")
    for gone in ("marks.opening.A", "marks.barrels.J", "grades.middle"):
        del typed[gone]
    declined = {"marks.opening.B": "declined", "critical.springs": "seen", "stepped-on.0": "no"}
    answer = examiner().fill(**typed | declined)
    assert answer.status_code == 422
    places = {"marks.opening.A", "marks.barrels.J", "grades.middle", "marks.opening.B"}
    places |= {"critical-at.springs", "critical-why.springs", "stepped-at.0", "stepped-why.0"}
    assert set(re.findall(r'href="#f-([\w.-]+)"', answer.text)) == places
    assert places <= set(re.findall(r'id="f-([\w.-]+)"', answer.text))
    assert "as typed" in answer.text
    assert sheets(town) == []


def test_a_sheet_is_sent_once_and_a_stale_window_meets_a_plain_page(town: Town, examiner) -> None:  # noqa: ANN001
    client = examiner()
    assert [client.fill(**whole(town)).status_code for _ in range(2)] == [303, 303]
    assert client.fill(**whole(town, 4)).status_code == 409
    assert client.fill(act="keep", note="late").status_code == 409
    assert sheets(town) == [("examiner-1", 1)]
    assert "<form" not in client.get(PATH).text.partition("<main")[2]


def test_an_old_window_overwrites_no_newer_draft_unasked(examiner) -> None:  # noqa: ANN001
    client = examiner()
    stamp = re.search(r'name="known" value="(\w+)"', client.get(PATH).text).group(1)
    assert client.fill(act="keep", known=stamp, note="newer").status_code == 303
    answer = client.fill(act="keep", known=stamp, note="older")
    assert answer.status_code == 409
    assert "older" in answer.text
    assert "newer" in client.get(PATH).text
    known = re.search(r'name="known" value="(\w+)"', answer.text).group(1)
    assert client.fill(act="keep", known=known, note="older").status_code == 303


def test_the_others_sheet_is_shown_only_when_all_are_sent(town: Town, both) -> None:  # noqa: ANN001
    first, second = both
    first.fill(**whole(town, note="seen by the first"))
    assert "seen by the first" not in second.get(PATH).text
    assert "per cent" not in first.get(PATH).text
    second.fill(**whole(town, note="seen by the second"))
    for client in both:
        page = client.get(PATH).text
        assert "seen by the first" in page
        assert "seen by the second" in page
        assert "66.6 per cent" in page


def test_apart_each_keeps_or_changes_with_a_reason_and_both_versions_stay(town: Town, both) -> None:  # noqa: ANN001
    first, second = both
    first.fill(**whole(town, 4))
    second.fill(**whole(town, 2))
    assert "Talk it over" in first.get(PATH).text
    assert first.fill(f"{PATH}/talk", why=" ").status_code == 422
    assert first.fill(f"{PATH}/talk", why="I stood at the head end.").status_code == 303
    assert first.fill(f"{PATH}/talk", why="Again.").status_code == 409
    assert second.get(f"{PATH}/change").status_code == 200
    assert second.fill(f"{PATH}/change", **whole(town, 2), why="Nothing new.").status_code == 422
    refused = second.fill(f"{PATH}/change", **whole(town, 3))
    assert "say in a sentence why" in refused.text
    assert second.fill(f"{PATH}/change", **whole(town, 4), why="I had not seen the spot.").status_code == 303
    assert sheets(town) == [("examiner-1", 1), ("examiner-1", 2), ("examiner-2", 1), ("examiner-2", 2)]
    page = first.get(PATH).text
    assert "I stood at the head end." in page
    assert "I had not seen the spot." in page
    assert "What was changed" in page
    with town.store.reading(SCHOOL.id) as work:
        assert result_of(work, work.exams.by_id("exam")).scores.total == 100


def test_close_enough_there_is_nothing_to_talk_over(town: Town, both) -> None:  # noqa: ANN001
    for client in both:
        client.fill(**whole(town))
    assert both[0].fill(f"{PATH}/talk", why="Why not.").status_code == 409
    assert both[0].fill(f"{PATH}/change", **whole(town, 4), why="Why not.").status_code == 409
    assert both[0].get(f"{PATH}/change").status_code == 303


def test_another_examiners_exam_is_not_there(town: Town) -> None:
    stranger = town.as_role("examiner", OTHER)
    with town.store.writing(SCHOOL.id) as work:
        exam = work.exams.by_id("exam")
        work.exams.add(type(exam)("elsewhere", "enrolment-2", exam.practical_id, exam.day, 60), ("examiner-2",))
        work.commit()
    assert town.as_role("examiner").get("/sheets/elsewhere").status_code == 404
    assert stranger.get("/sheets/elsewhere").status_code == 404


def test_a_sheet_of_an_exam_to_come_is_kept_but_not_sent(town: Town, examiner) -> None:  # noqa: ANN001
    with town.store.writing(SCHOOL.id) as work:
        exam = work.exams.by_id("exam")
        later = type(exam)("later", "enrolment-2", exam.practical_id, exam.day.replace(day=26), 600)
        work.exams.add(later, ("examiner-1", "examiner-2"))
        work.commit()
    answer = examiner().fill("/sheets/later", **whole(town))
    assert answer.status_code == 422
    assert "still to come" in answer.text
