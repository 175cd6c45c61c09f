"""The recording of an exam: agreed to, noted where it is kept, opened, kept longer, deleted; and a look each morning."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from app.files.exam_papers import read_clients, write_recording
from app.queries.appeals import open_appeals
from app.queries.exam_facts import practical_of
from app.queries.recordings import OPENED, client_agrees, decided_on, may_open, recording_of, recordings_due
from app.storage.chores import Done
from app.storage.exam_papers import CLIENT, RECORDING, ExamPaper
from app.storage.exams import Exam
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.exam_clients import forget_intake
from app.use_cases.keeping_proof import mail_directors
from app.wording.recordings import due_mail
from assessments.practicals.recording import Recording, recording_faults
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

JOB = "recordings"
CHANGED = N_("Somebody changed this meanwhile. Open the page again to see how it stands.")


@dataclass(frozen=True, slots=True)
class NoteRecording:
    """Where it is kept ("" leaves it as it is), and until when if longer than usual; `known` is the version that the director had seen."""

    exam_id: str
    link: str
    longer_until: date | None
    longer_why: str
    known: int


def agree(store: Store, asker: Asker, exam_id: str, agreed: bool) -> None:
    """The candidate's own word, until the exam begins; taking it back later has the director delete what is there."""
    with store.writing(asker.school.id) as work:
        exam = _recorded(work, exam_id)
        if work.enrolments.by_id(exam.enrolment_id).person_id != asker.person_id:
            raise NotFoundError
        before = recording_of(work, exam_id)
        if before.link or before.deleted_on:
            raise ConflictError(N_("There is a recording already. Ask the director."))
        _put(work, asker, exam, before, replace(before, agreed="yes" if agreed else "no"), "recording-agreed")


def note_recording(store: Store, asker: Asker, request: NoteRecording) -> None:
    """Note where it is; every fault at once, and then nothing is kept."""
    with store.writing(asker.school.id) as work:
        exam = _recorded(work, request.exam_id)
        before = recording_of(work, exam.id)
        wanted = replace(
            before,
            link=request.link or before.link,
            longer_until=request.longer_until,
            longer_why=request.longer_why.strip(),
        )
        faults = list(recording_faults(wanted, client_agrees(work, exam.id), asker.today))
        if before.deleted_on:
            faults.append(Fault("deleted", N_("this recording is deleted"), field="link"))
        if faults:
            raise RefusedError(faults)
        if wanted == before:
            return
        _refuse_stale(work, exam, request.known)
        _put(work, asker, exam, before, wanted, "recording-noted")


def open_recording(store: Store, asker: Asker, exam_id: str, is_director: bool) -> str:
    """Where it is, for those who may know; every opening is on record."""
    with store.writing(asker.school.id) as work:
        exam = _recorded(work, exam_id)
        found = recording_of(work, exam_id)
        if not found.link or not may_open(work, exam, asker.person_id, is_director):
            raise NotFoundError
        work.record.append(OPENED, exam_id, asker.person_id, asker.now, {})
        work.commit()
    return found.link


def note_deleted(store: Store, asker: Asker, exam_id: str, known: int) -> None:
    """It is deleted in the school's store: where it was is kept no longer either."""
    with store.writing(asker.school.id) as work:
        exam = _recorded(work, exam_id)
        before = recording_of(work, exam_id)
        if before.deleted_on:
            return
        if not before.link:
            raise ConflictError(N_("There is no recording of this exam."))
        if open_appeals(work, exam_id) and before.agreed != "no":
            raise ConflictError(
                N_("An appeal or complaint about this exam is open: its recording is kept until that ends.")
            )
        _refuse_stale(work, exam, known)
        _put(work, asker, exam, before, replace(before, link="", deleted_on=asker.today), "recording-deleted")


def look_at_recordings(store: Store, asker: Asker) -> int:
    """Once a day: mail directors what is to be deleted, and erase clients' intake whose time is over; how many are due."""
    zone = asker.school.time_zone
    with store.reading(asker.school.id) as work:
        if work.chores.done(JOB, asker.today):
            return 0
        due = recordings_due(work, asker.today, zone)
        over = [id for id, paper in work.exam_papers.of_kind(CLIENT).items() if _is_over(work, id, paper, asker)]
    for exam_id in over:
        forget_intake(store, asker, exam_id)
    with store.writing(asker.school.id) as work:
        if due:
            mail_directors(work, asker, *due_mail(len(due), asker.language))
        work.chores.add_done(Done(JOB, asker.today, str(len(due)), asker.now))
        work.commit()
    return len(due)


def _is_over(work: Work, exam_id: str, paper: ExamPaper, asker: Asker) -> bool:
    told = read_clients(paper.content)
    decided = decided_on(work, exam_id, asker.school.time_zone)
    days = timedelta(days=practical_of(work, work.exams.by_id(exam_id)).record_days)
    holds = told.client.cautions or (told.reserve and told.reserve.cautions)
    return bool(holds) and decided is not None and decided + days <= asker.today


def _recorded(work: Work, exam_id: str) -> Exam:
    exam = work.exams.by_id(exam_id)
    if exam is None or not practical_of(work, exam).recorded:
        raise NotFoundError
    return exam


def _refuse_stale(work: Work, exam: Exam, known: int) -> None:
    paper = work.exam_papers.of(exam.id, RECORDING)
    if (paper.version if paper else 0) != known:
        raise ConflictError(CHANGED)


def _put(work: Work, asker: Asker, exam: Exam, before: Recording, wanted: Recording, kind: str) -> None:
    """The record says what was done, never where the recording is."""
    if wanted == before:
        return
    paper = work.exam_papers.of(exam.id, RECORDING)
    version = paper.version + 1 if paper else 1
    work.exam_papers.put(ExamPaper(exam.id, RECORDING, version, write_recording(wanted), asker.person_id, asker.now))
    body = {"agreed": wanted.agreed, "longer": wanted.longer_until.isoformat() if wanted.longer_until else ""}
    work.record.append(kind, exam.id, asker.person_id, asker.now, body | {"reason": wanted.longer_why})
    work.commit()
