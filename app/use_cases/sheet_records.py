"""What an examiner's device kept and sends: each record is taken, known already, or not taken and why; one transaction."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.files.sheets import write_sheet
from app.queries.exam_facts import practical_of
from app.queries.sheet_facts import draft_stamp, records_of
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.exams import SentAlreadyError, own_exam, own_sheet, send_sheet
from assessments.practicals.sheet_record_checks import check_record
from assessments.practicals.sheet_records import SheetRecord, sheet_of
from assessments.practicals.specification import Practical
from curriculum.faults import N_, ConflictError, Fault, RefusedError

SENT = N_("This sheet is sent and does not change; this came after it.")
DECIDED = N_("This exam is decided; its sheets do not change any more.")
MISSING = N_("{number} of the taps on this device have not come to the school; see what it says of them.")
OTHER = N_("The school has something else under the same number.")


@dataclass(frozen=True, slots=True)
class TakenRecord:
    """What became of one record: new, known before, or not taken and why."""

    id: str
    is_new: bool = False
    error: Exception | None = None
    faults: tuple[Fault, ...] = ()


def take_records(store: Store, asker: Asker, exam_id: str, records: Sequence[SheetRecord]) -> tuple[TakenRecord, ...]:
    """Take what can be taken, and keep the sheet they make. What is there already stays there, whether sent or not."""
    with store.writing(asker.school.id) as work:
        exam = own_exam(work, exam_id, asker.person_id)
        practical, closed = practical_of(work, exam), _closed(work, exam_id, asker.person_id)
        told = work.sheet_records.ids(exam_id, asker.person_id)
        known = {one.id: one for one in records_of(work, exam, asker.person_id)}
        outcomes = []
        for one in records:
            outcomes.append(_outcome(practical, one, known.get(one.id), closed))
            if outcomes[-1].is_new:
                known[one.id] = one
        if any(one.is_new for one in outcomes):
            added = [one for one in known.values() if one.id not in told]
            work.sheet_records.add(exam_id, asker.person_id, added, asker.now)
            sheet = own_sheet(work, exam, asker.person_id, sheet_of(practical, known.values()))
            work.exams.put_draft(exam_id, asker.person_id, write_sheet(sheet), asker.now)
            work.commit()
    return tuple(outcomes)


def send_tapped(store: Store, asker: Asker, exam_id: str, held: Sequence[str]) -> None:
    """Send for good the sheet that the records make; asked again, nothing more. `held` are the ids of the device's own:
    `RefusedError` where one of them never came, or where the sheet has gaps, and then nothing is sent."""
    with store.reading(asker.school.id) as work:
        exam = own_exam(work, exam_id, asker.person_id)
        if any(one.examiner_id == asker.person_id for one in work.exams.sheets(exam_id)):
            return
        records = records_of(work, exam, asker.person_id)
        missing = len({*held} - {one.id for one in records})
        if missing:
            raise RefusedError([Fault("not-all-here", MISSING, {"number": missing})])
        tapped, stamp = (
            sheet_of(practical_of(work, exam), records),
            draft_stamp(work.exams.draft(exam_id, asker.person_id)),
        )
    try:
        send_sheet(store, asker, exam_id, tapped, stamp)
    except SentAlreadyError as already:
        if not already.same:
            raise


def _outcome(practical: Practical, one: SheetRecord, known: SheetRecord | None, closed: str) -> TakenRecord:
    if known is not None:
        return TakenRecord(one.id, error=None if known == one else ConflictError(OTHER))
    if closed:
        return TakenRecord(one.id, error=ConflictError(closed))
    faults = check_record(practical, one)
    return TakenRecord(one.id, not faults, RefusedError(faults) if faults else None, faults)


def _closed(work: Work, exam_id: str, examiner_id: str) -> str:
    """Why the sheet takes nothing new any more; empty while it does."""
    if any(one.examiner_id == examiner_id for one in work.exams.sheets(exam_id)):
        return SENT
    return DECIDED if work.exams.decisions(exam_id) else ""
