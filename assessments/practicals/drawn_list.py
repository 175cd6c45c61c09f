"""What a drawing answers with: the lists, what each comes to, what is proven, and which rules were relaxed."""

from collections.abc import Sequence
from dataclasses import dataclass

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing_order import Ordered
from assessments.practicals.drawing_specification import DrawingSpecification

# Candidates a measured difficulty rests on; judgement, as in `assessments.measurement.limits`.
LEAST_CANDIDATES, FEW_CANDIDATES = 15, 30


@dataclass(frozen=True, slots=True)
class DrawnList:
    """One list in order: minutes with transitions, mean difficulty, and whether no order of it has less transition.

    `information` is at each point of the target, `information_at_cut` at the pass mark in logits if one is given;
    `recent` are its tasks that lists held lately, `thin` those whose difficulty was measured on fewer than 30.
    """

    tasks: tuple[str, ...]
    minutes: float
    difficulty: float
    transition_seconds: float = 0.0
    order_proven: bool = True
    information: tuple[float, ...] = ()
    information_at_cut: float | None = None
    recent: tuple[str, ...] = ()
    thin: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Broken:
    """A rule that a list does not keep: the list's place from 0, what was asked, and what it comes to."""

    rule: str
    list: int
    asked: float
    found: float


@dataclass(frozen=True, slots=True)
class Drawing:
    """With a target, `gap` is information between `deviation` and the least possible; without, transition seconds
    between the lists' orders and the least possible ones of the same tasks (the largest over the lists).

    `left_out` are exercises whose measured difficulty rests on too few candidates to be drawn by it; `broken` is empty
    unless rules could be relaxed and had to be.
    """

    lists: tuple[DrawnList, ...]
    proven_optimal: bool
    gap: float
    deviation: float | None = None
    left_out: tuple[str, ...] = ()
    broken: tuple[Broken, ...] = ()


def drawn_list(one: Ordered, spec: DrawingSpecification) -> DrawnList:
    """What an ordered list comes to."""
    tasks = one.tasks
    return DrawnList(
        tuple(task.id for task in tasks),
        sum(task.minutes for task in tasks) + one.seconds / 60,
        sum(task.difficulty for task in tasks) / len(tasks),
        one.seconds,
        one.is_proven,
        tuple(_information(tasks, point) for point, _ in spec.target),
        None if spec.cut is None else _information(tasks, spec.cut),
        tuple(task.id for task in tasks if task.recently_drawn),
        tuple(task.id for task in tasks if task.candidates is not None and task.candidates < FEW_CANDIDATES),
    )


def measured_well(
    bank: Sequence[BankExercise], spec: DrawingSpecification
) -> tuple[tuple[BankExercise, ...], tuple[str, ...]]:
    """The exercises that can be drawn by information, and the ids left out; without a target, all can be drawn.

    What must always be in stays in: its difficulty is then flagged with the list.
    """
    few = {
        one.id for one in bank if spec.target and one.candidates is not None and one.candidates < LEAST_CANDIDATES
    } - set(spec.always)
    return tuple(one for one in bank if one.id not in few), tuple(one.id for one in bank if one.id in few)


def _information(tasks: Sequence[BankExercise], at: float) -> float:
    return sum(task.information(at) for task in tasks)
