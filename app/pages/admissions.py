"""Admission to an exam: the director sees what is missing, and admits or waives with a reason."""

from fastapi.responses import Response

from app.queries.admissions import admission_overview
from app.use_cases.admitting import decide_admission
from app.web.door import Pages
from app.web.typed import typed_text, whole_number
from app.web.visit import Here, Visit
from assessments.practicals.admission import TICKED, Admission
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/exams/{exam_id}/admission", may="set exams")
def admission(visit: Here, exam_id: str) -> Response:
    return _admission(visit, exam_id, [], 200)


@pages.post("/exams/{exam_id}/admission", may="set exams")
def decide(visit: Here, exam_id: str) -> Response:
    """Keep what is ticked, granted and decided; the page as typed, with every reason, if it can't stand."""
    form = _typed(visit)
    try:
        decide_admission(visit.store, visit.asker, exam_id, form, whole_number(visit.typed("known")))
    except RefusedError as refusal:
        return _admission(visit, exam_id, visit.faults(refusal.faults), 422, form)
    return visit.go(f"/exams/{exam_id}/admission", visit.say(N_("Kept.")))


def _typed(visit: Visit) -> Admission:
    words = {name: typed_text(visit.form, name).strip() for name in ("granted", "to_tell", "verdict", "reason")}
    ticked = tuple(one for one in TICKED if one in visit.form.get("ticked", ()))
    return Admission(ticked, **words)


def _admission(visit: Visit, exam_id: str, faults: list, status: int, form: Admission | None = None) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None:
            raise NotFoundError
        overview = admission_overview(work, exam, visit.today, visit.language)
    return visit.show(
        "admissions/admission.html", status, overview=overview, form=form or overview.admission, faults=faults
    )
