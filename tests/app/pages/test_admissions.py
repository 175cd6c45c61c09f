"""Admission: what is missing is seen, admitting or waiving opens the exam, and examiners read only what they need."""

import pytest

from app.queries.exam_facts import practical_of
from app.use_cases.asker import Asker
from app.use_cases.demo import SCHOOL
from app.use_cases.drawing_lists import open_lists
from app.use_cases.exams import send_sheet
from assessments.practicals.sheets import SheetState
from curriculum.faults import RefusedError
from tests.app.pages.conftest import NOW, Town
from tests.assessments.practicals.cast import level_sheet

PAGE = "/exams/exam/admission"
NOTHING = {"known": "1", "verdict": "", "granted": "Dyslexia paper seen.", "to_tell": "Reads <aloud> first."}


def test_an_exam_begins_only_once_its_candidate_is_admitted_or_what_is_missing_is_waived(
    town: Town, form_token
) -> None:  # noqa: ANN001
    director, examiner = town.as_role("director"), town.as_role("examiner")
    data = NOTHING | {"form_token": form_token(director, PAGE)}
    assert [director.post(PAGE, data=data).status_code for _ in range(2)] == [303, 303]
    shown = director.get(PAGE).text
    for words in ("Not done yet: Basic practical", "Identity was not seen.", "Dyslexia paper seen."):
        assert words in shown

    own_page = town.as_role("trainee").get("/my-practicals/exam").text
    assert "Not done yet: Basic practical" in own_page
    assert "Dyslexia paper seen." in own_page
    sheet = examiner.get("/sheets/exam").text
    assert "The candidate is not admitted yet." in sheet
    assert "Reads &lt;aloud&gt; first." in sheet
    assert "Dyslexia" not in sheet
    own = Asker(SCHOOL, "examiner-1", "examiner-1", NOW)
    with town.store.reading(SCHOOL.id) as work:
        ready = level_sheet(practical_of(work, work.exams.by_id("exam")), "examiner-1", 3, state=SheetState.ON_DEVICE)
    for act in (
        lambda: send_sheet(town.store, own, "exam", ready),
        lambda: open_lists(town.store, own, "exam", "CODE"),
    ):
        with pytest.raises(RefusedError, match="not admitted"):
            act()

    refused = director.post(PAGE, data=data | {"known": "2", "verdict": "admitted", "ticked": ["fees", "identity"]})
    assert refused.status_code == 422
    assert "something is missing" in refused.text
    assert director.post(PAGE, data=data | {"known": "1", "verdict": "waived", "reason": "Old."}).status_code == 409
    assert (
        director.post(PAGE, data=data | {"known": "2", "verdict": "waived", "reason": "Late post."}).status_code == 303
    )
    assert "not admitted yet" not in examiner.get("/sheets/exam").text
    assert examiner.get(PAGE).status_code == 404
