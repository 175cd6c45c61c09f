"""What a candidate can act on after an exam: every criterion's level, what to reach for next, and what was missed.

All of it is the panel's: sheets are averaged, taps are put together, and nothing says which examiner gave or saw what.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from assessments.practicals.result import Result
from assessments.practicals.sheets import Noticed, Sheet
from assessments.practicals.specification import HUNDRED, Criterion, Practical, Scale
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import WEIGHTS, Exercise, MovementFault

TO_WORK_ON = (Noticed.FAULT_MISSED, Noticed.PROMPTED, Noticed.OUT_OF_ORDER, Noticed.LEFT_OUT)
MOST_FAULTS = 3


@dataclass(frozen=True, slots=True)
class CriterionFeedback:
    """One criterion: the level that the average lies nearest to, with its sentence; None where nobody scored it.

    `reach` is the sentence of the next better level, empty at the best; `weakest` are ids of blocks, where they differ.
    """

    criterion: Criterion
    level: Fraction | None
    sentence: str
    reach: str
    weakest: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Mending:
    """A fault that the repertoire teaches to see on an exercise, with its correction and the drill that mends it."""

    fault: MovementFault
    drill: str


@dataclass(frozen=True, slots=True)
class ToWorkOn:
    """One exercise on which something was noticed; `mendings` are the weightiest faults where one was missed.

    `after` is the exercise that goes before it in the edition's order, empty at the start of an apparatus.
    """

    exercise: str
    noticed: tuple[Noticed, ...]
    mendings: tuple[Mending, ...] = ()
    after: str = ""


@dataclass(frozen=True, slots=True)
class CandidateFeedback:
    """The feedback of one exam: `mended` are exercises on which a fault was seen and mended, `declined` those declined
    with good reason, which is right; `critical` are codes.
    """

    criteria: tuple[CriterionFeedback, ...]
    to_work_on: tuple[ToWorkOn, ...]
    mended: tuple[str, ...]
    declined: tuple[str, ...]
    critical: tuple[str, ...]


def candidate_feedback(
    practical: Practical, result: Result, sheets: Sequence[Sheet], edition: Edition | None
) -> CandidateFeedback:
    """The feedback of one exam from its standing sheets; `edition` is what the candidate learns by."""
    by_exercise: dict[str, set[Noticed]] = {}
    for sheet in sheets:
        for tap in sheet.taps:
            by_exercise.setdefault(tap.exercise, set()).add(tap.noticed)
    worked_on = (to_work_on(id, found, edition) for id, found in by_exercise.items())
    return CandidateFeedback(
        tuple(_criterion(one, result) for one in practical.criteria),
        tuple(one for one in worked_on if one.noticed),
        tuple(id for id, found in by_exercise.items() if Noticed.FAULT_MENDED in found),
        tuple(id for id, found in by_exercise.items() if Noticed.DECLINED in found),
        tuple(str(step.values["fault"]) for step in result.steps if step.code == "critical-confirmed"),
    )


def to_work_on(exercise_id: str, noticed: Iterable[Noticed], edition: Edition | None) -> ToWorkOn:
    """What was noticed on one exercise, with what the repertoire says of it; an unknown exercise has nothing more."""
    found = tuple(one for one in TO_WORK_ON if one in set(noticed))
    exercise = edition.exercise(exercise_id) if edition else None
    if exercise is None:
        return ToWorkOn(exercise_id, found)
    missed = Noticed.FAULT_MISSED in found
    return ToWorkOn(exercise_id, found, mendings(exercise) if missed else (), _before(exercise, edition))


def mendings(exercise: Exercise) -> tuple[Mending, ...]:
    """The faults to look for first, at most three: safety before form before rhythm, else as the edition orders them."""
    steps = {step.id: step.text for step in (*exercise.regressions, *exercise.progressions)}
    ordered = sorted(exercise.faults, key=lambda one: WEIGHTS.index(one.weight))
    return tuple(Mending(fault, steps.get(fault.drill, "")) for fault in ordered[:MOST_FAULTS])


def nearest_level(scale: Scale, per_cent: Fraction) -> Fraction:
    """The level that counts nearest to an average; midway between two, the one that counts less."""
    share = per_cent / HUNDRED
    return min(scale.levels(), key=lambda level: (abs(scale.share(level) - share), scale.share(level)))


def _criterion(one: Criterion, result: Result) -> CriterionFeedback:
    score = next(score for score in result.scores.criteria if score.id == one.id)
    if score.per_cent is None:
        return CriterionFeedback(one, None, "", "", ())
    level = nearest_level(one.scale, score.per_cent)
    better = [other for other in one.scale.levels() if one.scale.share(other) > one.scale.share(level)]
    reach = one.sentence(min(better, key=one.scale.share)) if better else ""
    return CriterionFeedback(one, level, one.sentence(level), reach, _weakest(one, result))


def _weakest(one: Criterion, result: Result) -> tuple[str, ...]:
    shares = {
        cell.cell.block: cell.share
        for cell in result.scores.cells
        if cell.cell.criterion == one.id and cell.share is not None
    }
    least = min(shares.values())
    return tuple(block for block, share in shares.items() if share == least) if least < max(shares.values()) else ()


def _before(exercise: Exercise, edition: Edition) -> str:
    on_it = edition.on(exercise.apparatus)
    place = on_it.index(exercise)
    return on_it[place - 1].id if place else ""
