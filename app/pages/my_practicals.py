"""A candidate's exams with what to act on, for them and for the director; as a page and as a PDF."""

import importlib
from dataclasses import asdict

from fastapi.responses import Response

from app.queries.my_practicals import OwnExamOverview, own_exam_overview, own_exams
from app.web.door import Pages
from app.web.visit import Here, Visit
from curriculum.faults import NotFoundError

pages = Pages()


@pages.get("/my-practicals", may="see own practicals")
def own_list(visit: Here) -> Response:
    with visit.store.reading(visit.school_id) as work:
        lines = own_exams(work, visit.person.id, visit.today, visit.language)
    return visit.show("my_practicals/my_practicals.html", lines=lines)


@pages.get("/my-practicals/{exam_id}", may="see own practicals")
def own(visit: Here, exam_id: str) -> Response:
    """What is coming and how it is judged; once decided, what to act on."""
    return _page(visit, _overview(visit, exam_id, own=True), own=True)


@pages.get("/my-practicals/{exam_id}/feedback.pdf", may="see own practicals")
def own_pdf(visit: Here, exam_id: str) -> Response:
    return _pdf(visit, _overview(visit, exam_id, own=True))


@pages.get("/exams/{exam_id}/feedback", may="decide exams")
def for_director(visit: Here, exam_id: str) -> Response:
    """What the candidate reads."""
    return _page(visit, _overview(visit, exam_id, own=False), own=False)


@pages.get("/exams/{exam_id}/feedback.pdf", may="decide exams")
def for_director_pdf(visit: Here, exam_id: str) -> Response:
    return _pdf(visit, _overview(visit, exam_id, own=False))


def _overview(visit: Visit, exam_id: str, own: bool) -> OwnExamOverview:
    with visit.store.reading(visit.school_id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None or (own and work.enrolments.by_id(exam.enrolment_id).person_id != visit.person.id):
            raise NotFoundError
        return own_exam_overview(work, exam, visit.today, visit.language)


def _page(visit: Visit, overview: OwnExamOverview, own: bool) -> Response:
    place = "my-practicals" if own else "exams"
    pdf = f"/{place}/{overview.exam.id}/feedback.pdf"
    return visit.show("my_practicals/exam.html", overview=overview, own=own, pdf=pdf)


def _pdf(visit: Visit, overview: OwnExamOverview) -> Response:
    if overview.feedback is None:
        raise NotFoundError
    # Typesetting is loaded when a PDF is asked for: it would slow every start down.
    printing = importlib.import_module("app.files.exam_feedback_pdf")
    exam = overview.exam
    head = {
        "practical": f"{exam.practical}, {overview.edition}", "candidate": overview.candidate, "when": exam.when,
        "outcome": overview.outcome, "reason": overview.reason,
    }  # fmt: skip
    body = printing.exam_feedback_pdf(head, asdict(overview.feedback), visit.school.name, visit.now, visit.language)
    headers = {"content-disposition": 'inline; filename="feedback.pdf"'}
    return Response(body, media_type="application/pdf", headers=headers)
