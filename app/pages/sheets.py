"""The examiner's exams, the score sheet, and what is kept or changed after talking."""

from collections.abc import Sequence

from fastapi.responses import Response

from app.queries import sheets as query
from app.queries.exam_facts import sent_sheets
from app.queries.judging_pages import judging_lines
from app.queries.sent_sheets import sent_overview
from app.queries.sheet_facts import may_talk
from app.storage.exams import Exam
from app.storage.work import Work
from app.use_cases.exams import (
    KeptElsewhereError,
    SentAlreadyError,
    change_after_talking,
    keep_after_talking,
    keep_sheet,
    own_exam,
    send_sheet,
)
from app.use_cases.seasons import sheet_sent
from app.web.door import Pages
from app.web.sheet_faults import summary
from app.web.sheet_form import SheetForm
from app.web.visit import Here, Visit
from app.wording.dates import moment_text
from curriculum.faults import N_, ConflictError, Fault, RefusedError

pages = Pages()
REASON_LONGEST = 2000
OPEN = ("to-score", "begun")
# What the sheet in the room needs beyond what this page needs.
ROOM_PARTS = tuple(
    f"/static/{name}" for name in ("room.css", "room.js", "room-sheet.js", "room-words.js", "sheet-records.js")
)
ELSEWHERE = N_("You kept this sheet in another window meanwhile. Press again to put what stands here in its place.")


@pages.get("/sheets", may="score own exams")
def exams(visit: Here) -> Response:
    """The examiner's exams, with what is to do first."""
    with visit.store.reading(visit.school_id) as work:
        lines = query.examiners_list(work, visit.person.id, visit.today, visit.language)
        judging = judging_lines(work, visit.person.id, False, visit.language)
    made = moment_text(visit.now, visit.school.time_zone, visit.locale)
    rooms = {line.id: f"/sheets/{line.id}/room" for line in lines}
    pages = ["/sheets", *(rooms[line.id] for line in lines if line.standing in OPEN)]
    drop = [rooms[line.id] for line in lines if line.standing not in (*OPEN, "coming")]
    return visit.show(
        "sheets/sheets.html", lines=lines, judging=judging, made=made,
        pages=" ".join(pages), drop=" ".join(drop), parts=" ".join(ROOM_PARTS),
    )  # fmt: skip


@pages.get("/sheets/{exam_id}", may="score own exams")
def sheet(visit: Here, exam_id: str) -> Response:
    """The score sheet to fill in; once it is sent, the sheet as it was sent."""
    with visit.store.reading(visit.school_id) as work:
        exam = own_exam(work, exam_id, visit.person.id)
        sent = _is_sent(work, visit, exam)
    return _sent(visit, exam_id, [], 200) if sent else _sheet(visit, exam_id, None, (), 200)


@pages.post("/sheets/{exam_id}", may="score own exams")
def keep_or_send(visit: Here, exam_id: str) -> Response:
    """Keep what is there, or send it for good; the same page as typed, with every reason, if it can't be taken."""
    asked, form = _asked(visit, exam_id), SheetForm.typed(visit.form)
    known, sending = visit.typed("known") or None, visit.typed("act") == "send"
    read = form.to_send if sending else form.sheet
    typed, faults = read(asked.practical, asked.exercises, asked.draft)
    try:
        if faults:
            raise RefusedError(faults)
        act = send_sheet if sending else keep_sheet
        act(visit.store, visit.asker, exam_id, typed, known)
    except RefusedError as refusal:
        return _sheet(visit, exam_id, form, refusal.faults, 422)
    except KeptElsewhereError:
        return _sheet(visit, exam_id, form, (Fault("kept-elsewhere", ELSEWHERE),), 409)
    except SentAlreadyError as already:
        if not (sending and already.same):
            raise
        return visit.go(f"/sheets/{exam_id}", visit.say(str(already)))
    if sending:
        _tell_season(visit, exam_id)
        return visit.go(f"/sheets/{exam_id}", visit.say(N_("Sent. It does not change any more.")))
    said = visit.say(
        N_("Kept: {marked} of {all} criteria are marked."),
        marked=visit.language.figure(len(typed.marks)),
        all=visit.language.figure(len(asked.practical.cells())),
    )
    return visit.go(f"/sheets/{exam_id}{_back_to(visit, asked)}", said)


@pages.post("/sheets/{exam_id}/talk", may="score own exams")
def keep_it(visit: Here, exam_id: str) -> Response:
    """After talking: the sheet stays, with a reason."""
    _asked(visit, exam_id)
    try:
        keep_after_talking(visit.store, visit.asker, exam_id, _reason(visit))
    except RefusedError as refusal:
        return _sent(visit, exam_id, visit.faults(refusal.faults), 422)
    _tell_season(visit, exam_id)
    return visit.go(f"/sheets/{exam_id}", visit.say(N_("Your sheet stays as it was; the reason is on record.")))


@pages.get("/sheets/{exam_id}/change", may="score own exams")
def changing(visit: Here, exam_id: str) -> Response:
    """The sent sheet as a form, while the examiners talk."""
    with visit.store.reading(visit.school_id) as work:
        exam = own_exam(work, exam_id, visit.person.id)
        if not may_talk(work, exam, visit.person.id):
            return visit.go(f"/sheets/{exam_id}")
        own = sent_overview(work, exam, visit.person.id, visit.today, visit.school.time_zone, visit.language).own
    return _sheet(visit, exam_id, SheetForm.of(own), (), 200, talking=True)


@pages.post("/sheets/{exam_id}/change", may="score own exams")
def change_it(visit: Here, exam_id: str) -> Response:
    """After talking: the sheet as changed is a new version, with a reason; the first stays on record."""
    asked, form = _asked(visit, exam_id), SheetForm.typed(visit.form)
    with visit.store.reading(visit.school_id) as work:
        exam = own_exam(work, exam_id, visit.person.id)
        if not may_talk(work, exam, visit.person.id):
            raise ConflictError(N_("There is nothing to change: your sheet stands, or the sheets are close enough."))
        standing = next(one for one in sent_sheets(work, exam_id) if one.examiner == visit.person.id)
    typed, faults = form.to_send(asked.practical, asked.exercises, standing)
    try:
        reason = _reason(visit, faults)
        change_after_talking(visit.store, visit.asker, exam_id, typed, reason)
    except RefusedError as refusal:
        return _sheet(visit, exam_id, form, refusal.faults, 422, talking=True)
    _tell_season(visit, exam_id)
    return visit.go(f"/sheets/{exam_id}", visit.say(N_("Changed. Both versions stay on record.")))


def _sheet(  # noqa: PLR0913 - how the form is shown
    visit: Visit, exam_id: str, form: SheetForm | None, faults: Sequence[Fault], status: int, talking: bool = False
) -> Response:
    asked = _asked(visit, exam_id)
    shown = form or (SheetForm.of(asked.draft) if asked.draft else SheetForm({}))
    return visit.show(
        "sheets/sheet.html",
        status,
        sheet=asked,
        form=shown,
        faults=visit.faults(tuple(faults)),
        summary=summary(visit, asked, tuple(faults)),
        steps=shown.steps(),
        talking=talking,
        action=f"/sheets/{exam_id}{'/change' if talking else ''}",
        paper="",
    )


def _sent(visit: Visit, exam_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam = own_exam(work, exam_id, visit.person.id)
        if not any(one.examiner_id == visit.person.id for one in work.exams.sheets(exam_id)):
            raise ConflictError(N_("Your sheet is not sent yet."))
        overview = sent_overview(work, exam, visit.person.id, visit.today, visit.school.time_zone, visit.language)
    return visit.show("sheets/sent.html", status, overview=overview, faults=faults, reason=visit.typed("why"))


def _asked(visit: Visit, exam_id: str) -> query.ScoreSheet:
    with visit.store.reading(visit.school_id) as work:
        exam = own_exam(work, exam_id, visit.person.id)
        return query.score_sheet(work, exam, visit.person.id, visit.today, visit.school.time_zone, visit.language)


def _is_sent(work: Work, visit: Visit, exam: Exam) -> bool:
    return any(one.examiner_id == visit.person.id for one in work.exams.sheets(exam.id))


def _reason(visit: Visit, others: Sequence[Fault] = ()) -> str:
    """Why the sheet is kept or changed; refused, with the other faults of the form, when there is none."""
    reason, faults = visit.typed("why").strip(), list(others)
    if not reason:
        faults.append(Fault("no-reason", N_("say in a sentence why"), field="why"))
    if len(reason) > REASON_LONGEST:
        faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": REASON_LONGEST}, "why"))
    if faults:
        raise RefusedError(faults)
    return reason


def _tell_season(visit: Visit, exam_id: str) -> None:
    """The season's statistics follow on their own; sending does not wait for them."""
    sheet_sent(visit.store, visit.school_id, exam_id, visit.request.app.state.ask)


def _back_to(visit: Visit, asked: query.ScoreSheet) -> str:
    """The place on the page where the examiner pressed Keep."""
    blocks = {block.id for part in asked.parts for block in part.blocks}
    block = visit.typed("act").removeprefix("keep-")
    return f"#block-{block}" if block in blocks else ""
