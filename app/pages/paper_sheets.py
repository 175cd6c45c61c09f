"""Score sheets on paper: to print before the exam, and to type in by their code after it."""

import importlib

from fastapi.responses import Response

from app.queries.paper_sheets import printed_sheets
from app.queries.sheets import ScoreSheet, score_sheet
from app.storage.exams import Exam
from app.storage.work import Work
from app.use_cases.exams import own_exam
from app.use_cases.paper_sheets import find_paper, paper_of, send_paper
from app.use_cases.seasons import sheet_sent
from app.web.door import Pages
from app.web.sheet_faults import summary
from app.web.sheet_form import SheetForm
from app.web.visit import Here, Visit
from curriculum.faults import N_, ConflictError, NotFoundError, RefusedError

pages = Pages()


@pages.get("/sheets/{exam_id}/paper.pdf", may="score own exams")
def own(visit: Here, exam_id: str) -> Response:
    """The examiner's own sheet to print."""
    with visit.store.reading(visit.school_id) as work:
        return _pdf(visit, work, own_exam(work, exam_id, visit.person.id), [visit.person.id])


@pages.get("/exams/{exam_id}/paper.pdf", may="set exams")
def of_panel(visit: Here, exam_id: str) -> Response:
    """A sheet for each examiner of an exam."""
    with visit.store.reading(visit.school_id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None or not work.exams.seats(exam_id):
            raise NotFoundError
        return _pdf(visit, work, exam, work.exams.seats(exam_id))


@pages.get("/paper-sheets", may="type in paper sheets")
def asking(visit: Here) -> Response:
    """Where the code of a sheet is typed."""
    return visit.show("paper_sheets/code.html", faults=[], code="")


@pages.post("/paper-sheets", may="type in paper sheets")
def found(visit: Here) -> Response:
    typed = visit.typed("code")
    try:
        with visit.store.reading(visit.school_id) as work:
            code = find_paper(work, visit.asker, typed)
    except RefusedError as refusal:
        return visit.show("paper_sheets/code.html", 422, faults=visit.faults(refusal.faults), code=typed)
    return visit.go(f"/paper-sheets/{code}")


@pages.get("/paper-sheets/{code}", may="type in paper sheets")
def typing(visit: Here, code: str) -> Response:
    """The sheet as a form, empty: what a device holds of it is nobody else's to see."""
    asked = _asked(visit, code)
    return _form(visit, code, asked, SheetForm({}), (), 200)


@pages.post("/paper-sheets/{code}", may="type in paper sheets")
def send(visit: Here, code: str) -> Response:
    """Send what was typed as the examiner's sheet; the form as typed, with every reason, if it can't be."""
    asked, form = _asked(visit, code), SheetForm.typed(visit.form)
    typed, faults = form.to_send(asked.practical, asked.exercises, None)
    try:
        if faults:
            raise RefusedError(faults)
        send_paper(visit.store, visit.asker, code, typed)
    except RefusedError as refusal:
        return _form(visit, code, asked, form, refusal.faults, 422)
    sheet_sent(visit.store, visit.school_id, asked.exam.id, visit.request.app.state.ask)
    return visit.go("/paper-sheets", visit.say(N_("Sent as the examiner’s sheet, marked as typed in from paper.")))


def _asked(visit: Visit, code: str) -> ScoreSheet:
    with visit.store.reading(visit.school_id) as work:
        exam, examiner = paper_of(work, visit.asker, code)
        if work.exams.decisions(exam.id) or any(one.examiner_id == examiner for one in work.exams.sheets(exam.id)):
            raise ConflictError(N_("This sheet is sent and does not change."))
        return score_sheet(work, exam, examiner, visit.today, visit.school.time_zone, visit.language, blank=True)


def _form(visit: Visit, code: str, asked: ScoreSheet, form: SheetForm, faults: tuple, status: int) -> Response:
    return visit.show(
        "sheets/sheet.html", status, sheet=asked, form=form, faults=visit.faults(faults),
        summary=summary(visit, asked, faults), steps=form.steps(), talking=False, paper=code,
        action=f"/paper-sheets/{code}",
    )  # fmt: skip


def _pdf(visit: Visit, work: Work, exam: Exam, examiners: list[str]) -> Response:
    sheets = printed_sheets(work, exam, examiners, visit.today, visit.school.time_zone, visit.language)
    # Typesetting is loaded when a PDF is asked for: it would slow every start down.
    printing = importlib.import_module("app.files.score_sheet_pdf")
    body = printing.score_sheet_pdf(sheets, visit.school.name, visit.now, visit.language)
    headers = {"content-disposition": 'inline; filename="score-sheet.pdf"'}
    return Response(body, media_type="application/pdf", headers=headers)
