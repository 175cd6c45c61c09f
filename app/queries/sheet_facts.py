"""How an examiner's sheet stands: to score, begun, sent, to talk over; and the stamp of a draft."""

import hashlib
from datetime import date

from app.files.repertoire import edition_from_documents
from app.files.sheets import read_sheet
from app.queries.exam_facts import first_examiners, practical_of, result_of, sent_sheets, tasks_of
from app.queries.lists import sealed_parts
from app.storage.exams import Exam
from app.storage.work import Work
from assessments.practicals.sheet_changes import changes
from assessments.practicals.sheet_records import SheetRecord
from assessments.practicals.specification import Part

NO_DRAFT = "none"


def draft_stamp(draft: str | None) -> str:
    """What tells one kept draft from another; a form carries it, so that an old window overwrites nothing."""
    return hashlib.sha256(draft.encode()).hexdigest()[:16] if draft else NO_DRAFT


def records_of(work: Work, exam: Exam, examiner_id: str) -> tuple[SheetRecord, ...]:
    """The records of one examiner's sheet; of a draft kept before there were records, those that make it."""
    found = tuple(work.sheet_records.of(exam.id, examiner_id))
    draft = None if found else work.exams.draft(exam.id, examiner_id)
    return changes(practical_of(work, exam), (), read_sheet(draft)) if draft else found


def sheet_standing(work: Work, exam: Exam, examiner_id: str, today: date) -> str:
    """A code of `wording.sheets.STANDINGS`."""
    if work.exams.decisions(exam.id):
        return "decided"
    senders = {one.examiner_id for one in work.exams.sheets(exam.id)}
    if examiner_id not in senders:
        if work.exams.draft(exam.id, examiner_id) is not None:
            return "begun"
        return "coming" if exam.day > today else "to-score"
    if not senders >= first_examiners(work, exam.id):
        return "others"
    if may_talk(work, exam, examiner_id):
        return "talk"
    return "talked" if apart(work, exam) else "sent"


def may_talk(work: Work, exam: Exam, examiner_id: str) -> bool:
    """Whether this examiner still has to keep or change a sheet that is apart from the other's."""
    own = [one for one in sent_sheets(work, exam.id) if one.examiner == examiner_id]
    waits = bool(own) and not own[0].second_marking and not own[0].after_talking
    return waits and not work.exams.decisions(exam.id) and apart(work, exam)


def apart(work: Work, exam: Exam) -> bool:
    """Whether the first examiners differ by more than the practical allows, and have not all said what stays."""
    found = result_of(work, exam)
    codes = {step.code for step in found.steps if step.state == "open"}
    return "apart" in codes and "sheets" not in codes


def exercises_of(work: Work, exam: Exam, examiner_id: str, today: date) -> dict[str, tuple[str, ...]]:
    """What the candidate is asked to teach, by part: ids; a list that is sealed until the start stays sealed before."""
    tasks, sealed = tasks_of(work, exam), sealed_parts(work, exam, examiner_id)
    found = {}
    for part in practical_of(work, exam).parts:
        named = tasks.get(part.id) or (part.exercises.exercises if part.exercises else ())
        if named and part.id not in sealed and not (_is_sealed(part) and exam.day > today):
            found[part.id] = tuple(dict.fromkeys(named))
    return found


def exercise_names(work: Work, exam: Exam) -> dict[str, str]:
    """The names of the exercises, from the repertoire that the candidate learns by."""
    edition = work.editions.by_id(work.enrolments.by_id(exam.enrolment_id).repertoire_id)
    return {one.id: one.name for one in edition_from_documents(edition.documents).exercises} if edition else {}


def _is_sealed(part: Part) -> bool:
    return bool(part.exercises and part.exercises.drawn and part.exercises.notice_days is None)
