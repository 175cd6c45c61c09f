"""The director notes an exam as void or not completed, and may take that back until it is decided."""

from app.queries.set_aside import NOTED, TAKEN_BACK, set_aside
from app.storage.exams import Exam
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from assessments.practicals.set_aside import SetAside, set_aside_faults
from curriculum.faults import N_, ConflictError, NotFoundError, RefusedError


def note_set_aside(store: Store, asker: Asker, exam_id: str, noted: SetAside) -> None:
    """Note it; every fault at once. The same once more changes nothing, something else first needs the first taken back."""
    with store.writing(asker.school.id) as work:
        exam = _undecided(work, exam_id)
        kept = set_aside(work, exam_id)
        if kept is not None:
            if kept.noted == noted:
                return
            raise ConflictError(N_("This exam is set aside already. Take that back first."))
        faults = set_aside_faults(noted, exam.day, asker.today)
        if faults:
            raise RefusedError(faults)
        body = {"exam": exam_id, "outcome": str(noted.outcome), "cause": noted.cause, "reason": noted.reason}
        work.record.append(NOTED, exam_id, asker.person_id, asker.now, body)
        work.commit()


def take_back(store: Store, asker: Asker, exam_id: str, number: int) -> None:
    """Take the note of that number back; both stay on record. Nothing happens when it is taken back already."""
    with store.writing(asker.school.id) as work:
        _undecided(work, exam_id)
        kept = set_aside(work, exam_id)
        if kept is None:
            return
        if kept.number != number:
            raise ConflictError(N_("This was noted anew meanwhile. Open the page again to see how it stands."))
        work.record.append(TAKEN_BACK, exam_id, asker.person_id, asker.now, {"exam": exam_id, "number": number})
        work.commit()


def _undecided(work: Work, exam_id: str) -> Exam:
    exam = work.exams.by_id(exam_id)
    if exam is None:
        raise NotFoundError
    if work.exams.decisions(exam_id):
        raise ConflictError(N_("This exam is decided; a new decision can replace the old one."))
    return exam
