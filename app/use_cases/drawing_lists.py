"""Draw exercise lists for exams to come, and open a sealed one with its start code."""

import hmac
import json
import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta
from fractions import Fraction

from app.files.drawing import bank_json, drawing_json
from app.queries.lists import MOST_TRIES, practical_with, repertoire_of, waiting_exams
from app.storage.exams import Exam
from app.storage.lists import ExamList, KeptDrawing, ListOpening
from app.storage.work import Store, Work
from app.use_cases.admitting import refuse_unadmitted
from app.use_cases.asker import Asker
from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing import draw, seed_of
from assessments.practicals.drawing_names import check_names
from assessments.practicals.drawing_relaxed import draw_relaxed
from assessments.practicals.drawing_specification import SEALED, DrawingSpecification, drawing_specification
from assessments.practicals.drawn_list import Drawing
from assessments.practicals.specification import Part
from curriculum.document import node_of
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError
from curriculum.repertoire.bank import exam_bank
from curriculum.repertoire.edition import Edition
from curriculum.sessions.transition import passage

# No letters or digits that are taken for another when read from paper.
LETTERS, LENGTH = "ABCDEFGHJKMNPQRSTUVWXYZ23456789", 6
LATELY = timedelta(days=183)


@dataclass(frozen=True, slots=True)
class DrawLists:
    """A drawing as asked for; `clauses` as a specification file has them, `id` made by the form.

    `relax` lets minutes, then counts by kind give way where not everything can be kept.
    """

    id: str
    practical_id: str
    part: str
    exams: tuple[str, ...]
    apparatus: tuple[str, ...]
    levels: tuple[str, ...]
    factor: float
    clauses: Mapping[str, object]
    reason: str = ""
    relax: bool = False


def draw_lists(store: Store, asker: Asker, request: DrawLists) -> str:
    """Draw, give every exam its list, and return the drawing's id; sent twice it is drawn once.

    The secret is chance of this machine, kept from everybody until the last of these exams is over. Drawing takes
    seconds, so that nothing is locked meanwhile; what it rests on is looked at again before anything is kept.
    """
    with store.reading(asker.school.id) as work:
        if work.lists.drawing(request.id):
            return request.id
        asked = _asked(work, asker, request)
    secret = secrets.token_hex(32)
    check_names(asked.bank, asked.specification)
    act = draw_relaxed if request.relax else draw
    drawn = act(asked.bank, asked.specification, len(asked.exams), seed_of(secret), asked.pairs)
    kept = KeptDrawing(
        request.id, request.practical_id, asked.part.id, json.dumps(asked.clauses), bank_json(asked.bank, asked.pairs),
        json.dumps([exam.id for exam in asked.exams]), drawing_json(drawn), secret, request.reason,
        asker.person_id, asker.now,
    )  # fmt: skip
    with store.writing(asker.school.id) as work:
        if work.lists.drawing(request.id):
            return request.id
        if _asked(work, asker, request) != asked:
            raise ConflictError(N_("Something these lists rest on changed while they were drawn. Draw them once more."))
        work.lists.add_drawing(kept)
        _give_out(work, kept, asked.exams, drawn, asked.specification.notice == SEALED)
        body = {"drawing": kept.id, "part": kept.part, "exams": json.loads(kept.exams), "reason": kept.reason}
        work.record.append("lists-drawn", request.practical_id, asker.person_id, asker.now, body)
        work.commit()
    return kept.id


@dataclass(frozen=True, slots=True)
class _Asked:
    """All that a drawing rests on, as it stood at one moment."""

    part: Part
    exams: list[Exam]
    clauses: dict[str, object]
    specification: DrawingSpecification
    bank: list[BankExercise]
    pairs: dict[tuple[str, str], float]


def _asked(work: Work, asker: Asker, request: DrawLists) -> _Asked:
    part, exams = _chosen(work, asker, request)
    _ask_why(work, request, exams)
    _, edition = repertoire_of(work, exams)
    clauses, bank = _clauses(request, part), _bank(work, asker, edition, request)
    pairs = _pairs(edition, bank) if clauses["order"] == "edition" else {}
    return _Asked(part, exams, clauses, drawing_specification(node_of(clauses)), bank, pairs)


def open_lists(store: Store, asker: Asker, exam_id: str, code: str) -> None:
    """Open an exam's sealed lists for one of its examiners; every try is kept, and wrong ones run out."""
    with store.writing(asker.school.id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None or asker.person_id not in work.exams.seats(exam_id):
            raise NotFoundError
        if exam.day > asker.today:
            raise ConflictError(N_("The list is sealed until the day of the exam."))
        refuse_unadmitted(work, exam)
        wrong = [one for one in work.lists.openings(exam_id) if one.person_id == asker.person_id and not one.opened]
        if len(wrong) >= MOST_TRIES:
            raise ConflictError(N_("Too many wrong codes. Ask the director for the list."))
        right = any(_same(code, one.start_code) for one in work.lists.of_exam(exam_id).values() if one.sealed)
        work.lists.add_opening(ListOpening(secrets.token_hex(16), exam_id, asker.person_id, right, asker.now))
        kind = "list-opened" if right else "start-code-wrong"
        work.record.append(kind, exam_id, asker.person_id, asker.now, {})
        work.commit()
    if not right:
        raise RefusedError([Fault("wrong-code", N_("is not the start code of this exam"), field="code")])


def _same(typed: str, code: str) -> bool:
    return hmac.compare_digest("".join(typed.upper().split()).encode(), code.encode())


def _chosen(work: Work, asker: Asker, request: DrawLists) -> tuple[Part, list[Exam]]:
    """The part and the exams, in order of time; refuses what can no longer be given a list."""
    _, part = practical_with(work, request.practical_id, request.part)
    exams = [one for one in waiting_exams(work, request.practical_id, asker.today) if one.id in request.exams]
    if len(exams) != len(set(request.exams)):
        raise ConflictError(N_("One of these exams is over or was begun. Open the page again."))
    repertoires = {work.enrolments.by_id(exam.enrolment_id).repertoire_id for exam in exams}
    if len(repertoires) > 1:
        sentence = N_("these candidates learn by different editions of the repertoire; draw for each edition apart")
        raise RefusedError([Fault("editions", sentence, field="exams")])
    return part, exams


def _ask_why(work: Work, request: DrawLists, exams: list[Exam]) -> None:
    """Nobody draws again until a list pleases: a second drawing needs its reason, and the first stays on record."""
    again = any(request.part in work.lists.of_exam(exam.id) for exam in exams)
    opened = any(one.opened for exam in exams for one in work.lists.openings(exam.id))
    if opened:
        raise ConflictError(N_("A list of one of these exams was opened already."))
    if again and not request.reason:
        sentence = N_("one of these exams has a list already: say why it is drawn again")
        raise RefusedError([Fault("drawn-again", sentence, field="reason")])


def _clauses(request: DrawLists, part: Part) -> dict[str, object]:
    days = part.exercises.notice_days
    notice = SEALED if days is None else str(days)
    return dict(request.clauses) | {"order": part.exercises.order, "notice": notice}


def _bank(work: Work, asker: Asker, edition: Edition, request: DrawLists) -> list[BankExercise]:
    """The chosen exercises of the edition; how often each was drawn in the last half year."""
    drawn: dict[str, int] = {}
    days = {exam.id: exam.day for exam in work.exams.all()}
    for (exam_id, _), one in work.lists.standing().items():
        if exam_id not in request.exams and days[exam_id] >= asker.today - LATELY:
            for task in json.loads(one.tasks):
                drawn[task] = drawn.get(task, 0) + 1
    bank = []
    for task in exam_bank(edition, Fraction(request.factor).limit_denominator(1000)):
        if task.apparatus in request.apparatus and task.level in request.levels:
            fields = {name: getattr(task, name) for name in ("apparatus", "series", "level", "family")}
            fields |= {"place": str(task.place), "spots": "yes" if task.spot else "no"}
            own = (task.exercise, float(task.difficulty), float(task.minutes), fields, drawn.get(task.exercise, 0))
            bank.append(BankExercise(*own))
    if not bank:
        raise RefusedError(
            [Fault("no-exercise", N_("no exercise of this apparatus has this level"), field="apparatus")]
        )
    return bank


def _pairs(edition: Edition, bank: list[BankExercise]) -> dict[tuple[str, str], float]:
    known = {one.id: one for one in edition.exercises}
    own = [known[one.id] for one in bank]
    return {(a.id, b.id): float(passage(edition, a, b).seconds) for a in own for b in own if a is not b}


def _give_out(work: Work, kept: KeptDrawing, exams: list[Exam], drawn: Drawing, sealed: bool) -> None:
    for exam, own in zip(exams, drawn.lists, strict=True):
        before = work.lists.of_exam(exam.id)
        number = before[kept.part].number + 1 if kept.part in before else 1
        # One code opens all the lists of an exam.
        code = next((one.start_code for part, one in before.items() if part != kept.part), None) or _code()
        work.lists.add(ExamList(exam.id, kept.part, number, kept.id, json.dumps(own.tasks), code, sealed))


def _code() -> str:
    return "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
