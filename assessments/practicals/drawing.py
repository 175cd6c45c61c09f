"""Exercise lists drawn by integer programming: the set first, then its order.

Source of the model: van der Linden (2005), Linear Models for Optimal Test Design.
"""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing_order import EXACT_TASKS, NONE, Ordered, Transitions, ordered
from assessments.practicals.drawing_rows import Reserve, joint_rows, list_rows, next_rows, recent_rows, target_rows
from assessments.practicals.drawing_solver import INFINITE, NODES, Row, Solved, refuse, solve, solve_shuffled
from assessments.practicals.drawing_specification import DrawingSpecification
from assessments.practicals.drawn_list import LEAST_CANDIDATES, Drawing, drawn_list, measured_well
from curriculum.faults import N_, Fault, RefusedError

SMALL = 60
ENOUGH = 0.01
# As a share of the information wanted: so near, lists drawn one after another will do. Steps for each of them.
NEAR, IN_TURN = 0.05, 2000
EXACT = 1e-6
RESERVES = 12
CUTS = 200


@dataclass(frozen=True, slots=True)
class _Sets:
    chosen: tuple[tuple[int, ...], ...]
    deviation: float | None = None
    bound: float = 0.0


def seed_of(secret: str) -> int:
    """The seed that a secret stands for: all of its SHA-256, so that nobody tries all seeds."""
    return int.from_bytes(hashlib.sha256(secret.encode()).digest(), "big")


def draw(
    bank: Sequence[BankExercise],
    spec: DrawingSpecification,
    lists: int,
    seed: int,
    pairs: Mapping[tuple[str, str], float] | None = None,
) -> Drawing:
    """Draw `lists` lists; raise `RefusedError` naming the clauses that can't hold together.

    `pairs` are transition seconds from one exercise to another and stand before the specification's seconds by field.
    The candidate's order is the candidate's: its lists stand in the bank's order and count no transitions.
    """
    transitions = NONE if spec.order == "candidate" else Transitions(spec.transitions, pairs or {})
    kept, left_out = measured_well(bank, spec)
    attempt = _Attempt(kept, spec, lists, seed, transitions)
    try:
        if spec.most_minutes is None or transitions.is_empty:
            drawing = attempt.draw(Reserve())[0]
        else:
            drawing = _reserving(attempt) or _cutting(attempt)
    except RefusedError as refusal:
        raise RefusedError([*refusal.faults, *_left_out(left_out)]) from refusal
    return replace(drawing, left_out=left_out)


def _left_out(ids: tuple[str, ...]) -> list[Fault]:
    """What also stands in the way where a drawing by information is refused."""
    sentence = N_("left out, as their difficulty was measured on fewer than {least} candidates: {ids}")
    values = {"least": LEAST_CANDIDATES, "ids": ", ".join(ids)}
    return [Fault("left-out", sentence, values, "target")] if ids else []


@dataclass(frozen=True, slots=True)
class _Attempt:
    bank: Sequence[BankExercise]
    spec: DrawingSpecification
    lists: int
    seed: int
    transitions: Transitions

    def draw(self, reserve: Reserve, bound: float | None = None) -> tuple[Drawing, _Sets, tuple[float, ...]]:
        """A drawing, its sets, and the minutes each list is too long; `bound` stands for the sets' own."""
        chance = numpy.random.Generator(numpy.random.PCG64(self.seed))
        find = _to_target if self.spec.target else _within_tolerance
        sets = find(self.bank, self.spec, self.lists, chance, reserve)
        orders = [ordered([self.bank[i] for i in one], self.transitions) for one in sets.chosen]
        most = numpy.inf if self.spec.most_minutes is None else self.spec.most_minutes
        over = tuple(_minutes(one) - most for one in orders)
        return drawing_of(orders, self.spec, sets.deviation, sets.bound if bound is None else bound), sets, over


def _reserving(attempt: _Attempt) -> Drawing | None:
    """Keep ever more minutes free for transitions: quick, but it may leave out sets that would do."""
    drawing, sets, over = attempt.draw(Reserve())
    minutes, bound = 0.0, sets.bound
    for _ in range(RESERVES):
        if max(over) <= EXACT:
            return drawing
        minutes += max(over)
        try:
            drawing, _, over = attempt.draw(Reserve(minutes), bound)
        except RefusedError:
            return None
    return drawing if max(over) <= EXACT else None


def _cutting(attempt: _Attempt) -> Drawing:
    """Leave out, one after another, the sets that no order brings within the minutes.

    Exact while orders are; for longer lists a set is left out on the best order found, which proves nothing.
    """
    too_long: tuple[tuple[int, ...], ...] = ()
    doubtful, bound = attempt.spec.tasks > EXACT_TASKS, None
    for _ in range(CUTS):
        try:
            drawing, sets, over = attempt.draw(Reserve(0.0, too_long), bound)
        except RefusedError:
            if doubtful and too_long:
                break
            raise
        if max(over) <= EXACT:
            return drawing
        bound = sets.bound if doubtful and bound is None else bound
        too_long += tuple(one for one, far in zip(sets.chosen, over, strict=True) if far > EXACT)
    sentence = N_("no lists whose transitions keep within the minutes were found in {tries} tries")
    raise RefusedError([Fault("transitions", sentence, {"tries": len(too_long)}, "minutes.at_most")])


def _minutes(one: Ordered) -> float:
    return sum(task.minutes for task in one.tasks) + one.seconds / 60


def drawing_of(orders: Sequence[Ordered], spec: DrawingSpecification, deviation: float | None, bound: float) -> Drawing:
    lists = tuple(drawn_list(one, spec) for one in orders)
    loose = max(one.seconds - one.bound for one in orders)
    gap = loose if deviation is None else max(0.0, deviation - bound)
    proven = gap <= EXACT and all(one.order_proven for one in lists)
    return Drawing(lists, proven, 0.0 if gap <= EXACT else gap, deviation)


def _mean(tasks: Sequence[BankExercise]) -> float:
    return sum(one.difficulty for one in tasks) / len(tasks)


def _chosen(values: numpy.ndarray, size: int, lists: int) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(i for i in range(size) if values[f * size + i] > 0.5) for f in range(lists))


def _to_target(bank, spec, lists, chance, reserve) -> _Sets:
    """The least largest deviation from the target; chance decides among sets that reach it, or, in a large bank,
    that come near what is possible: one list after another where that leads near enough, which is quick, else all at
    once for as many steps as there is time for.
    """
    z = len(bank) * lists
    in_turn = None if z <= SMALL else _in_turn_to_target(bank, spec, lists, chance, reserve)
    if in_turn and in_turn.deviation - in_turn.bound <= NEAR * min(wanted for _, wanted in spec.target):
        return in_turn
    try:
        all_at_once = _at_once_to_target(bank, spec, lists, chance, reserve)
    except RefusedError:
        if in_turn:
            return in_turn
        raise
    return min((one for one in (all_at_once, in_turn) if one), key=lambda one: one.deviation)


def _in_turn_to_target(bank, spec, lists, chance, reserve) -> _Sets | None:
    """One list after another, each near the target; None where that leads nowhere.

    The first list's bound holds for all at once too: no list comes nearer than one that is alone.
    """
    if spec.tolerance is not None:
        return None
    found, far, bound, size = [], 0.0, 0.0, len(bank)
    costs = numpy.zeros(size + 1)
    costs[size] = 1.0
    for _ in range(lists):
        rows = [*next_rows(bank, spec, reserve, found), *target_rows(bank, spec, 1)]
        try:
            best = solve_shuffled(costs, rows, 1, ENOUGH, chance, IN_TURN)
        except RefusedError:
            return None
        if best is None:
            return None
        bound = bound if found else best.bound
        found.append(_chosen(best.values, size, 1)[0])
        far = max(far, best.objective)
    return _Sets(tuple(found), far, bound)


def _at_once_to_target(bank, spec, lists, chance, reserve) -> _Sets:
    z = len(bank) * lists
    rows, columns = joint_rows(bank, spec, lists, reserve)
    rows += target_rows(bank, spec, lists)
    costs = numpy.zeros(columns)
    costs[z] = 1.0
    steps = NODES * SMALL // max(SMALL, z)
    best = solve_shuffled(costs, rows, columns - z, 0.0 if z <= SMALL else ENOUGH, chance, steps)
    if best is None:
        raise refuse(columns, rows, columns - z)
    tie = _tie(best, rows, columns, z, chance) if z <= SMALL else best
    return _Sets(_chosen(tie.values, len(bank), lists), best.objective, best.bound)


def _tie(best: Solved, rows: list[Row], columns: int, z: int, chance) -> Solved:
    """Another answer as good as the best, left to chance."""
    costs = numpy.concatenate([chance.random(z), numpy.zeros(columns - z)])
    as_good = ("best", 0.0, best.objective + 1e-7, {z: 1.0})
    try:
        return solve(costs, [*rows, as_good], columns - z, 0.05) or best
    except RefusedError:
        return best


def _within_tolerance(bank, spec, lists, chance, reserve) -> _Sets:
    """One list after another around a common mean, which is quick; all at once when that leads nowhere."""
    alone = [*list_rows(bank, spec, 0, reserve), *recent_rows(bank, spec, 1, [0] * len(bank))]
    free = solve(chance.random(len(bank)), alone)
    if free is None:
        raise refuse(len(bank), alone)
    middle = _mean([bank[i] for i in _chosen(free.values, len(bank), 1)[0]])
    for centre in (_mean(bank), middle) if lists > 1 and spec.tolerance is not None else (middle,):
        found = _one_by_one(bank, spec, lists, chance, reserve, centre if lists > 1 else None)
        if found:
            return _Sets(found)
    rows, columns = joint_rows(bank, spec, lists, reserve)
    z = len(bank) * lists
    costs = numpy.concatenate([chance.random(z), numpy.zeros(columns - z)])
    best = solve(costs, rows, columns - z, INFINITE)
    if best is None:
        raise refuse(columns, rows, columns - z)
    return _Sets(_chosen(best.values, len(bank), lists))


def _one_by_one(bank, spec, lists, chance, reserve, centre) -> tuple[tuple[int, ...], ...]:
    """Each within half the tolerance of `centre`, so within all of it of the mean of all; empty if it leads nowhere."""
    found = []
    for _ in range(lists):
        rows = next_rows(bank, spec, reserve, found)
        if spec.tolerance is not None and centre is not None:
            low, high = ((centre + sign * spec.tolerance / 2) * spec.tasks for sign in (-1, 1))
            rows.append(("difficulty.tolerance", low, high, {i: one.difficulty for i, one in enumerate(bank)}))
        best = solve(chance.random(len(bank)), rows)
        if best is None:
            return ()
        found.append(_chosen(best.values, len(bank), 1)[0])
    return tuple(found)
