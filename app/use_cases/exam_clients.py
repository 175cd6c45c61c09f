"""Who is the client of an exam, and the exercise list screened against them."""

from dataclasses import dataclass, replace

from app.files.exam_papers import Clients, read_clients, write_clients
from app.queries.exam_clients import bank_of, edition_of, is_closed
from app.queries.exam_facts import listed_tasks, practical_of
from app.storage.exam_papers import CLIENT, ExamPaper
from app.storage.exams import Exam
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from assessments.practicals.client import Intake, clients_faults
from assessments.practicals.screening import screened
from curriculum.faults import N_, ConflictError, NotFoundError, RefusedError


@dataclass(frozen=True, slots=True)
class TellClient:
    """The client as told; `known` is the version that whoever tells it had seen, 0 for none."""

    exam_id: str
    client: Intake
    reserve: Intake | None
    here: str
    known: int


def tell_client(store: Store, asker: Asker, request: TellClient) -> Clients:
    """Keep who the client is, and swap what they should not do; every fault at once, and then nothing is kept."""
    with store.writing(asker.school.id) as work:
        exam = work.exams.by_id(request.exam_id)
        if exam is None:
            raise NotFoundError
        refuse_closed(work, exam, asker.person_id)
        rule, edition = practical_of(work, exam).client, edition_of(work, exam)
        known = {one.code for one in edition.cautions}
        faults = clients_faults(request.client, request.reserve, request.here, rule, known)
        if faults:
            raise RefusedError(faults)
        told = Clients(request.client, request.reserve, request.here)
        found = screened(listed_tasks(work, exam), told.present.cautions, edition, bank_of(work, exam, edition))
        told = replace(told, swaps=found.swaps)
        if _put(work, asker, exam, told, request.known):
            body = {"client": told.client.code, "reserve": told.reserve.code if told.reserve else "", "here": told.here}
            body |= {"swaps": [f"{one.part}: {one.exercise} → {one.instead}" for one in told.swaps]}
            work.record.append("client-told", exam.id, asker.person_id, asker.now, body)
            work.commit()
    return told


def forget_intake(store: Store, asker: Asker, exam_id: str) -> None:
    """Erase the cautions of an exam's clients once it is decided; who they were by code and what was swapped stays."""
    with store.writing(asker.school.id) as work:
        paper = work.exam_papers.of(exam_id, CLIENT)
        if paper is None:
            raise NotFoundError
        if not work.exams.decisions(exam_id):
            raise ConflictError(N_("The intake is needed until the exam is decided."))
        told = read_clients(paper.content)
        bare = replace(
            told,
            client=replace(told.client, cautions=()),
            reserve=replace(told.reserve, cautions=()) if told.reserve else None,
            swaps=tuple(replace(one, cautions=()) for one in told.swaps),
        )
        if bare != told:
            paper = replace(paper, content=write_clients(bare), version=paper.version + 1)
            work.exam_papers.put(replace(paper, told_by=asker.person_id or paper.told_by, told_at=asker.now))
            work.record.append("intake-forgotten", exam_id, asker.person_id, asker.now, {})
            work.commit()


def refuse_closed(work: Work, exam: Exam, asker_id: str) -> None:
    """Once a sheet is sent or the exam decided, what came before it does not change any more."""
    if is_closed(work, exam, asker_id):
        raise ConflictError(N_("A sheet of this exam is sent; what came before it does not change any more."))


def _put(work: Work, asker: Asker, exam: Exam, told: Clients, known: int) -> bool:
    """Whether there was anything to change; `ConflictError` where somebody else changed it meanwhile."""
    before = work.exam_papers.of(exam.id, CLIENT)
    content = write_clients(told)
    if before and before.content == content:
        return False
    if (before.version if before else 0) != known:
        raise ConflictError(N_("Somebody changed this meanwhile. Open the page again to see how it stands."))
    work.exam_papers.put(ExamPaper(exam.id, CLIENT, known + 1, content, asker.person_id, asker.now))
    return True
