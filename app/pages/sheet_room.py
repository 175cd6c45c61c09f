"""The score sheet as it is tapped in the room: kept on the device record by record, and sent from there."""

import json

from fastapi.responses import JSONResponse, Response

from app.queries import sheets as query
from app.queries.sheet_facts import records_of
from app.storage.work import Work
from app.use_cases.exams import own_exam
from app.use_cases.seasons import sheet_sent
from app.use_cases.sheet_records import send_tapped, take_records
from app.web.door import Pages
from app.web.sent_records import answered_record, sent_records, written_record
from app.web.sheet_faults import summary
from app.web.sheet_form import SheetForm
from app.web.visit import Here, Visit
from app.wording.dates import moment_text
from assessments.practicals.sheet_records import SheetRecord
from curriculum.faults import ConflictError, RefusedError

pages = Pages()


@pages.get("/sheets/{exam_id}/room", may="score own exams")
def room(visit: Here, exam_id: str) -> Response:
    """The score sheet to tap while watching; once it is sent, the sheet as it was sent."""
    with visit.store.reading(visit.school_id) as work:
        exam = own_exam(work, exam_id, visit.person.id)
        if _is_closed(work, visit, exam_id):
            return visit.go(f"/sheets/{exam_id}")
        asked = query.score_sheet(work, exam, visit.person.id, visit.today, visit.school.time_zone, visit.language)
        found = records_of(work, exam, visit.person.id)
    held = json.dumps([written_record(one) for one in found], ensure_ascii=False)
    made = moment_text(visit.now, visit.school.time_zone, visit.locale)
    return visit.show("sheets/room.html", sheet=asked, held=held, made=made)


@pages.get("/sheets/{exam_id}/records", may="score own exams")
def records(visit: Here, exam_id: str) -> Response:
    """What the school holds of the examiner's own sheet, record by record."""
    with visit.store.reading(visit.school_id) as work:
        exam = own_exam(work, exam_id, visit.person.id)
        found = records_of(work, exam, visit.person.id)
        sent = _is_sent(work, visit, exam_id)
    return JSONResponse({"items": [written_record(one) for one in found], "sent": sent})


@pages.post("/sheets/{exam_id}/records", may="score own exams")
def take(visit: Here, exam_id: str) -> Response:
    """Take what a device kept and sends, many at once; each has its own answer, and none undoes another."""
    read = sent_records(visit.typed("items"))
    asked = [one for one in read if isinstance(one, SheetRecord)]
    taken = iter(take_records(visit.store, visit.asker, exam_id, asked))
    outcomes = [next(taken) if isinstance(one, SheetRecord) else one for one in read]
    return JSONResponse({"items": [answered_record(visit, exam_id, place, one) for place, one in enumerate(outcomes)]})


@pages.post("/sheets/{exam_id}/send", may="score own exams")
def send(visit: Here, exam_id: str) -> Response:
    """Send for good what was tapped, as the device asks; refused with every gap, and then nothing is sent."""

    with visit.store.reading(visit.school_id) as work:
        exam = own_exam(work, exam_id, visit.person.id)
        asked = query.score_sheet(work, exam, visit.person.id, visit.today, visit.school.time_zone, visit.language)
    try:
        send_tapped(visit.store, visit.asker, exam_id, visit.typed("records").split())
    except RefusedError as refusal:
        form = SheetForm.of(asked.draft) if asked.draft else SheetForm({})
        placed = tuple(form.placed(fault, asked.draft) if asked.draft else fault for fault in refusal.faults)
        return JSONResponse({"reasons": [one.text for one in summary(visit, asked, placed)]}, 422)
    except ConflictError as conflict:
        return JSONResponse({"reasons": [visit.say(str(conflict))]}, 409)
    sheet_sent(visit.store, visit.school_id, exam_id, visit.request.app.state.ask)
    return Response(status_code=204)


def _is_closed(work: Work, visit: Visit, exam_id: str) -> bool:
    return bool(work.exams.decisions(exam_id)) or _is_sent(work, visit, exam_id)


def _is_sent(work: Work, visit: Visit, exam_id: str) -> bool:
    return any(one.examiner_id == visit.person.id for one in work.exams.sheets(exam_id))
