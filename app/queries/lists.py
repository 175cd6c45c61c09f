"""Drawn exercise lists: what can be drawn, what was drawn, what an examiner may see of it, and when."""

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from app.files.drawing import drawing_from
from app.files.repertoire import edition_from_documents
from app.queries.exam_facts import practical_edition, practical_in
from app.storage.editions import Edition as KeptEdition
from app.storage.exams import Exam
from app.storage.lists import KeptDrawing
from app.storage.work import Work
from app.wording.dates import clock_text, day_text
from app.wording.drawing import not_kept, proof_text
from app.wording.languages import Language
from assessments.practicals.drawn_list import Drawing
from assessments.practicals.specification import Part, Practical
from curriculum.faults import N_, NotFoundError
from curriculum.repertoire.edition import Apparatus, Edition, Level

MOST_TRIES = 8
HAS_LIST = N_("{exam}, has a list")
OWN_ORDER = N_("Every list keeps all that was asked; its order is the candidate's own.")
OWN_ORDER_BROKEN = N_(
    "Not everything that was asked could be kept; each list says what. Its order is the candidate's own."
)


@dataclass(frozen=True, slots=True)
class ToDraw:
    """A drawn part of a practical on offer, and how many coming exams have no list for it."""

    practical_id: str
    part: str
    title: str
    exams: int
    without: int


@dataclass(frozen=True, slots=True)
class DrawingLine:
    """One drawing in the list."""

    id: str
    title: str
    when: str
    lists: int


@dataclass(frozen=True, slots=True)
class ListForExam:
    """One exam's list in words; `stands` is False where another drawing replaced it.

    `sealed` hides tasks and code from an examiner of the exam until the list is opened; `recent` counts the tasks that
    lists of the last half year held, `broken` says what the list does not keep.
    """

    exam_id: str
    candidate: str
    when: str
    tasks: tuple[str, ...]
    length: str
    difficulty: str
    start_code: str
    stands: bool
    sealed: bool
    recent: int = 0
    broken: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawingOverview:
    """One drawing; `secret` is empty until the last of its exams is over, `seal` is the secret's SHA-256.

    `relaxed` says that rules gave way.
    """

    id: str
    title: str
    when: str
    proof: str
    reason: str
    seal: str
    secret: str
    lists: tuple[ListForExam, ...]
    relaxed: bool = False


@dataclass(frozen=True, slots=True)
class DrawingChoices:
    """What a drawing can be made of: (value, words) pairs; `without` are exams that have no list yet."""

    title: str
    exams: tuple[tuple[str, str], ...]
    without: tuple[str, ...]
    apparatus: tuple[tuple[str, str], ...]
    levels: tuple[tuple[str, str], ...]
    number: int
    again: bool


def drawn_parts(practical: Practical) -> tuple[Part, ...]:
    """The parts whose exercises are drawn."""
    return tuple(part for part in practical.parts if part.exercises and part.exercises.drawn)


def practical_with(work: Work, practical_id: str, part_id: str) -> tuple[Practical, Part]:
    """A practical's edition and its drawn part; `NotFoundError` where there is none."""
    practical = practical_edition(work, practical_id)
    part = next((one for one in drawn_parts(practical) if one.id == part_id), None)
    if part is None:
        raise NotFoundError
    return practical, part


def _practical(kept: KeptEdition) -> Practical:
    return practical_in(json.dumps(kept.documents, sort_keys=True))


def waiting_exams(work: Work, practical_id: str, today: date) -> list[Exam]:
    """Exams of a practical's edition that are still to come and have no sheet sent."""
    senders, decided = work.exams.senders(), work.exams.all_decisions()
    exams = work.seasons.exams(practical_id)
    return [one for one in exams if one.day >= today and one.id not in senders and one.id not in decided]


def to_draw(work: Work, today: date) -> tuple[ToDraw, ...]:
    """Every drawn part of every practical with exams to come."""
    found, standing = [], work.lists.standing()
    for kept in work.editions.of_kind("practical"):
        exams = waiting_exams(work, kept.id, today)
        practical = _practical(kept)
        for part in drawn_parts(practical) if exams else ():
            without = sum((exam.id, part.id) not in standing for exam in exams)
            found.append(ToDraw(kept.id, part.id, f"{practical.title}: {part.title}", len(exams), without))
    return tuple(found)


def repertoire_of(work: Work, exams: list[Exam]) -> tuple[str, Edition]:
    """The one repertoire that the candidates of these exams learn by; `NotFoundError` where there are several."""
    ids = {work.enrolments.by_id(exam.enrolment_id).repertoire_id for exam in exams}
    if len(ids) != 1:
        raise NotFoundError
    (id,) = ids
    return id, edition_from_documents(work.editions.by_id(id).documents)


def who_and_when(work: Work, exams: list[Exam], language: Language) -> dict[str, tuple[str, str]]:
    """Candidate and time in words, by exam."""
    names = work.people.names()
    people = {one.id: one.person_id for one in work.enrolments.all()}
    return {one.id: (names[people[one.enrolment_id]], _when(one, language)) for one in exams}


def drawing_lines_of(work: Work, language: Language) -> tuple[DrawingLine, ...]:
    """Every drawing, the newest first."""
    return tuple(
        DrawingLine(
            one.id, _title(work, one), day_text(one.drawn_at.date(), language.locale), len(json.loads(one.exams))
        )
        for one in work.lists.drawings()
    )


def drawing_overview(
    work: Work, drawing: KeptDrawing, viewer_id: str, today: date, language: Language
) -> DrawingOverview:
    """One drawing with every exam's list, but for those that the viewer examines and has not opened."""
    exams = [work.exams.by_id(id) for id in json.loads(drawing.exams)]
    drawn = drawing_from(drawing.result)
    names = _exercise_names(repertoire_of(work, exams)[1])
    labels, standing = who_and_when(work, exams, language), work.lists.standing()
    lists = []
    for exam, own in zip(exams, drawn.lists, strict=True):
        now = standing[exam.id, drawing.part]
        figures = (language.decimal(own.minutes, 1), language.decimal(own.difficulty, 2))
        stands = now.drawing_id == drawing.id
        sealed = viewer_id in work.exams.seats(exam.id) and drawing.part in sealed_parts(work, exam, viewer_id)
        tasks = () if sealed else tuple(names.get(task, task) for task in own.tasks)
        code = now.start_code if stands and now.sealed and not sealed else ""
        lists.append(ListForExam(exam.id, *labels[exam.id], tasks, *figures, code, stands, sealed, len(own.recent),
                                 tuple(not_kept(drawn, len(lists), language))))  # fmt: skip
    over = all(exam.day < today for exam in exams)
    return DrawingOverview(
        drawing.id, _title(work, drawing), day_text(drawing.drawn_at.date(), language.locale),
        _proof(drawing, drawn, language), drawing.reason, hashlib.sha256(drawing.secret.encode()).hexdigest(),
        drawing.secret if over else "", tuple(lists), bool(drawn.broken),
    )  # fmt: skip


def drawing_choices(work: Work, practical_id: str, part_id: str, today: date, language: Language) -> DrawingChoices:
    """What lists for one part can be drawn from and for; `NotFoundError` where the practical has no such part."""
    practical, part = practical_with(work, practical_id, part_id)
    exams, standing = waiting_exams(work, practical_id, today), work.lists.standing()
    labels = {id: ": ".join(words) for id, words in who_and_when(work, exams, language).items()}
    without = tuple(exam.id for exam in exams if (exam.id, part.id) not in standing)
    editions = {work.enrolments.by_id(exam.enrolment_id).repertoire_id for exam in exams}
    repertoires = [edition_from_documents(work.editions.by_id(id).documents) for id in sorted(editions)]
    return DrawingChoices(
        f"{practical.title}: {part.title}",
        tuple(
            (exam.id, labels[exam.id] if exam.id in without else language(HAS_LIST, exam=labels[exam.id]))
            for exam in exams
        ),
        without,
        _names(one for edition in repertoires for one in edition.apparatus),
        _names(one for edition in repertoires for one in edition.levels),
        part.exercises.number,
        len(without) < len(exams),
    )


def _names(named: Iterable[Apparatus | Level]) -> tuple[tuple[str, str], ...]:
    """(id, name) pairs, each once; the same id goes by the first edition's name."""
    found: dict[str, str] = {}
    for one in named:
        found.setdefault(one.id, one.name)
    return tuple(found.items())


def _proof(drawing: KeptDrawing, drawn: Drawing, language: Language) -> str:
    own = json.loads(drawing.specification)["order"] == "candidate"
    if own:
        return language(OWN_ORDER_BROKEN if drawn.broken else OWN_ORDER)
    return proof_text(drawn, language)


def _exercise_names(edition: Edition) -> dict[str, str]:
    return {one.id: f"{one.name} · {edition.apparatus_named(one.apparatus).name}" for one in edition.exercises}


def is_open(work: Work, exam_id: str, person_id: str) -> bool:
    """Whether this person has typed the exam's start code."""
    return any(one.opened and one.person_id == person_id for one in work.lists.openings(exam_id))


def sealed_parts(work: Work, exam: Exam, person_id: str) -> frozenset[str]:
    """The parts whose drawn list is still sealed for this person."""
    sealed = frozenset(one.part for one in work.lists.of_exam(exam.id).values() if one.sealed)
    return frozenset() if sealed and is_open(work, exam.id, person_id) else sealed


def _title(work: Work, drawing: KeptDrawing) -> str:
    practical, part = practical_with(work, drawing.practical_id, drawing.part)
    return f"{practical.title}: {part.title}"


def _when(exam: Exam, language: Language) -> str:
    return f"{day_text(exam.day, language.locale)}, {clock_text(exam.starts_minute, language.locale)}"
