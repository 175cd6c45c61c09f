"""The director admits a candidate to an exam, or waives what is missing; without either it does not begin."""

from app.files.exam_papers import write_admission
from app.queries.admissions import is_admitted, missing_of
from app.storage.exam_papers import ADMISSION, ExamPaper
from app.storage.exams import Exam
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.exam_clients import refuse_closed
from app.wording.admissions import NOT_ADMITTED
from assessments.practicals.admission import Admission, admission_faults
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

LONGEST = 400


def decide_admission(store: Store, asker: Asker, exam_id: str, admission: Admission, known: int) -> None:
    """Keep it; every fault at once, and then nothing is kept. `known` is the version that the director had seen."""
    with store.writing(asker.school.id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None:
            raise NotFoundError
        refuse_closed(work, exam, asker.person_id)
        lacking = missing_of(work, exam, admission, asker.today)
        faults = [*admission_faults(admission, lacking), *_too_long(admission)]
        if faults:
            raise RefusedError(faults)
        before, content = work.exam_papers.of(exam_id, ADMISSION), write_admission(admission)
        if before and before.content == content:
            return
        if (before.version if before else 0) != known:
            raise ConflictError(N_("Somebody changed this meanwhile. Open the page again to see how it stands."))
        work.exam_papers.put(ExamPaper(exam_id, ADMISSION, known + 1, content, asker.person_id, asker.now))
        body = {"verdict": admission.verdict, "reason": admission.reason, "adjusted": bool(admission.granted)}
        body |= {"missing": [f"{one.check} {one.title}".strip() for one in lacking]}
        work.record.append("admission-decided", exam_id, asker.person_id, asker.now, body)
        work.commit()


def refuse_unadmitted(work: Work, exam: Exam) -> None:
    """`RefusedError` where the exam can't begin yet."""
    if not is_admitted(work, exam):
        raise RefusedError([Fault("not-admitted", NOT_ADMITTED)])


def _too_long(admission: Admission) -> list[Fault]:
    sentence = N_("keep this under {most} letters")
    names = ("granted", "to_tell", "reason")
    return [
        Fault("too-long", sentence, {"most": LONGEST}, one) for one in names if len(getattr(admission, one)) > LONGEST
    ]
