"""What examiners do with their sheets: keep a draft, send it."""

from dataclasses import replace

from app.files.sheets import write_sheet
from app.queries.exam_facts import practical_of
from app.storage.exams import Exam, SentSheet
from app.storage.work import Store, Work
from app.use_cases.hours import Asker
from assessments.practicals.sheet_checks import send
from assessments.practicals.sheets import Sheet, SheetState
from curriculum.faults import N_, ConflictError, NotFoundError


def own_exam(work: Work, exam_id: str, examiner_id: str) -> Exam:
    """The examiner's own exam; `NotFoundError` for anybody else."""
    exam = work.exams.by_id(exam_id)
    if exam is None or examiner_id not in work.exams.seats(exam_id):
        raise NotFoundError
    return exam


def keep_sheet(store: Store, asker: Asker, exam_id: str, sheet: Sheet) -> Sheet:
    """Keep a draft; `ConflictError` once the sheet is sent."""
    with store.writing(asker.school.id) as work:
        kept = _own(work, asker, exam_id, sheet)
        work.exams.put_draft(exam_id, asker.person_id, write_sheet(kept), asker.now)
        work.commit()
    return kept


def send_sheet(store: Store, asker: Asker, exam_id: str, sheet: Sheet) -> Sheet:
    """Send a sheet for good; `RefusedError` with every gap, and then nothing is sent."""
    with store.writing(asker.school.id) as work:
        kept = _own(work, asker, exam_id, sheet)
        sent = send(practical_of(work, work.exams.by_id(exam_id)), kept)
        content = write_sheet(sent)
        work.exams.add_sheet(SentSheet(exam_id, asker.person_id, sent.version, content, sent.reason, asker.now))
        body = {"exam": exam_id, "version": sent.version}
        work.record.append("sheet-sent", exam_id, asker.person_id, asker.now, body)
        work.commit()
    return sent


def _own(work: Work, asker: Asker, exam_id: str, sheet: Sheet) -> Sheet:
    own_exam(work, exam_id, asker.person_id)
    if any(one.examiner_id == asker.person_id for one in work.exams.sheets(exam_id)):
        raise ConflictError(N_("This sheet is sent and does not change."))
    further = asker.person_id in work.exams.second_markers(exam_id)
    own = {"exam": exam_id, "examiner": asker.person_id, "version": 1, "state": SheetState.ON_DEVICE}
    return replace(sheet, **own, second_marking=further)
