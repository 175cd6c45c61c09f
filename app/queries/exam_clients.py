"""The client of an exam as the director and its examiners see them: codes, what the list became, what to heed."""

import json
from dataclasses import dataclass
from datetime import date

from app.files.exam_papers import Clients, read_clients
from app.files.repertoire import edition_from_documents
from app.queries.exam_facts import first_examiners, listed_tasks, practical_of
from app.queries.lists import sealed_parts, who_and_when
from app.storage.exam_papers import CLIENT
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording import exam_clients as words
from app.wording.languages import Language
from assessments.practicals.client import HERE
from assessments.practicals.screening import Screening, screened, with_swaps
from curriculum.repertoire.bank import BankTask, exam_bank
from curriculum.repertoire.edition import Edition

Pairs = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class ClientOverview:
    """The client's page; `swaps` are sentences, `to_modify` (exercise, what changes), `asks` who sends on to whom.

    `sealed` says that lists are hidden from this viewer until they are opened; `closed` that nothing changes any more.
    """

    exam_id: str
    candidate: str
    when: str
    rule: str
    asks_reserve: bool
    told: Clients | None
    version: int
    cautions: Pairs
    here: Pairs
    brought_by: Pairs
    swaps: tuple[str, ...]
    to_modify: Pairs
    heed: tuple[str, ...]
    no_touch: bool
    sealed: bool
    closed: bool
    may_forget: bool
    frame: str
    stop: str


def edition_of(work: Work, exam: Exam) -> Edition:
    """The repertoire that the candidate learns by."""
    return edition_from_documents(work.editions.by_id(work.enrolments.by_id(exam.enrolment_id).repertoire_id).documents)


def bank_of(work: Work, exam: Exam, edition: Edition) -> dict[str, BankTask]:
    """How difficult and how long each exercise is: as the exam's lists were drawn by, else as the edition says."""
    found = {one.exercise: one for one in exam_bank(edition)}
    for one in work.lists.of_exam(exam.id).values():
        for id, difficulty, minutes, *_ in json.loads(work.lists.drawing(one.drawing_id).bank)["bank"]:
            if id in found:
                own = found[id]
                found[id] = BankTask(
                    id, difficulty, minutes, own.apparatus, own.series, own.level, own.family, own.place, own.spot
                )
    return found


def clients_of(work: Work, exam_id: str) -> Clients | None:
    """Who was told to be the client of an exam."""
    paper = work.exam_papers.of(exam_id, CLIENT)
    return read_clients(paper.content) if paper else None


def is_closed(work: Work, exam: Exam, viewer_id: str) -> bool:
    """Whether what came before an exam stands for this viewer: decided, or a sheet is sent. An examiner who has not sent yet
    is not told that another has."""
    senders = {one.examiner_id for one in work.exams.sheets(exam.id)}
    scores = viewer_id in work.exams.seats(exam.id) and not senders >= first_examiners(work, exam.id)
    return bool(work.exams.decisions(exam.id)) or (viewer_id in senders if scores else bool(senders))


def client_overview(work: Work, exam: Exam, viewer_id: str, today: date, language: Language) -> ClientOverview:
    """The client of one exam; lists that are sealed for this viewer stay sealed."""
    paper, told, edition = work.exam_papers.of(exam.id, CLIENT), clients_of(work, exam.id), edition_of(work, exam)
    rule = practical_of(work, exam).client
    who, when = who_and_when(work, [exam], language)[exam.id]
    names = {one.id: one.name for one in edition.exercises}
    cautions = {one.code: one.name for one in edition.cautions}
    sealed = _sealed(work, exam, viewer_id)
    swaps = [one for one in told.swaps if one.part not in sealed] if told else []
    kinds = [one for one in edition.cautions if told and one.code in told.present.cautions]
    return ClientOverview(
        exam.id, who, when, words.rule_text(rule, language), rule.reserve, told, paper.version if paper else 0,
        tuple(cautions.items()),
        tuple((code, language(words.HERE[code])) for code in HERE),
        tuple((code, language(text)) for code, text in words.BROUGHT_BY.items() if rule.brought_by in ("either", code)),
        tuple(words.swap_text(one, names, cautions, language) for one in swaps),
        _to_modify(work, exam, told, edition, sealed),
        tuple(f"{one.name}: {text}" for one in kinds for text in (one.withhold, one.ask, one.stop) if text),
        bool(told) and not told.present.touched,
        bool(sealed),
        is_closed(work, exam, viewer_id),
        bool(told and told.present.cautions and work.exams.decisions(exam.id)),
        edition.frame,
        edition.stop,
    )  # fmt: skip


def names_on_sheet(work: Work, exam: Exam, language: Language) -> dict[str, str]:
    """What swapped tasks are called on the sheet, by exercise."""
    told = clients_of(work, exam.id)
    if told is None or not told.swaps:
        return {}
    names = {one.id: one.name for one in edition_of(work, exam).exercises}
    found = {}
    for one in told.swaps:
        sentence = words.INSTEAD_OF if one.instead else words.TO_DECLINE
        shown = {"exercise": names.get(one.exercise, one.exercise), "instead": names.get(one.instead, one.instead)}
        found[one.instead or one.exercise] = language(sentence, **shown)
    return found


def _sealed(work: Work, exam: Exam, viewer_id: str) -> frozenset[str]:
    """An examiner's own seal; who does not examine here sees all."""
    return sealed_parts(work, exam, viewer_id) if viewer_id in work.exams.seats(exam.id) else frozenset()


def _to_modify(work: Work, exam: Exam, told: Clients | None, edition: Edition, sealed: frozenset[str]) -> Pairs:
    if told is None or not told.present.cautions:
        return ()
    tasks = with_swaps(listed_tasks(work, exam), told.swaps)
    found: Screening = screened(tasks, told.present.cautions, edition, bank_of(work, exam, edition))
    names = {one.id: one.name for one in edition.exercises}
    return tuple(
        (
            names[one.exercise],
            " ".join(text for caution in one.cautions for text in (caution.text, caution.instead) if text),
        )
        for one in found.to_modify
        if one.part not in sealed
    )
