"""Lists where the specification can't be kept whole: rules give way in a stated order, list by list, by as little as
will do.

First the minutes, then the counts by kind (inclusions, floors, caps, spots); everything else holds. How far they must
give way is found by slack columns (van der Linden 2005, Linear Models for Optimal Test Design, on infeasible models).
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from math import ceil

import numpy

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing import draw, drawing_of
from assessments.practicals.drawing_order import NONE, Transitions, ordered
from assessments.practicals.drawing_rows import NOTHING, joint_rows, next_rows, target_rows
from assessments.practicals.drawing_solver import INFINITE, Row, solve, solve_shuffled
from assessments.practicals.drawing_specification import DrawingSpecification
from assessments.practicals.drawn_list import Broken, Drawing, DrawnList, measured_well
from curriculum.faults import RefusedError

Bank = Sequence[BankExercise]
Set = tuple[int, ...]
ROOM = 1e-6
CLASHES = {"clash", "transitions", "left-out", "stopped"}
# Steps for one list, and how much nearer the target it could be at most.
STEPS, ENOUGH = 2000, 0.01
# One exercise of a kind weighs more than any minutes.
KINDS_FIRST = 1000.0


def draw_relaxed(
    bank: Bank,
    spec: DrawingSpecification,
    lists: int,
    seed: int,
    pairs: Mapping[tuple[str, str], float] | None = None,
) -> Drawing:
    """As `draw`; where that is refused, minutes give way, then counts by kind, and `broken` says which and where.

    Lists are then drawn one after another, those before standing; minutes give way to the next whole minute, so that
    chance has a choice. Transitions are looked at only after, and may break the minutes too.
    """
    try:
        return draw(bank, spec, lists, seed, pairs)
    except RefusedError as refusal:
        first = refusal
    known, left_out = measured_well(bank, spec)
    sets = _in_turn(known, spec, lists, seed) if {one.code for one in first.faults} <= CLASHES else None
    if sets is None:
        raise first
    transitions = NONE if spec.order == "candidate" else Transitions(spec.transitions, pairs or {})
    orders = [ordered([known[i] for i in one], transitions) for one in sets]
    drawing = drawing_of(orders, spec, _deviation(known, spec, sets), 0.0)
    return replace(drawing, left_out=left_out, broken=_broken(bank, spec, drawing))


def _deviation(bank: Bank, spec: DrawingSpecification, sets: Sequence[Set]) -> float | None:
    far = [abs(sum(bank[i].information(at) for i in one) - wanted) for one in sets for at, wanted in spec.target]
    return max(far, default=None)


def _in_turn(bank: Bank, spec: DrawingSpecification, lists: int, seed: int) -> list[Set] | None:
    """Around the mean difficulty of the bank, or of a list that need not be like others, where a tolerance is asked."""
    centres: list[float | None] = [None]
    minutes = _minutes_for_all(bank, spec, lists) if lists > 1 else 0.0
    if spec.tolerance is not None and lists > 1:
        free = _next(bank, spec, [], None, minutes, _chance(seed))
        centres = [_mean(bank)] + ([_mean([bank[i] for i in free])] if free else [])
    for centre in centres:
        chance, found = _chance(seed), []
        while len(found) < lists and (one := _next(bank, spec, found, centre, minutes, chance)):
            found.append(one)
        if len(found) == lists:
            return found
    return None


def _minutes_for_all(bank: Bank, spec: DrawingSpecification, lists: int) -> float:
    """How far minutes give way at least when all lists share the need, exercises taken for divisible.

    Every list may use that much, so that the first ones don't take all short exercises.
    """
    rows, columns = joint_rows(bank, spec, lists, NOTHING)
    whole = len(bank) * lists
    rows += [("once", -INFINITE, 1.0, {place: 1.0}) for place in range(whole)]
    kinds, minutes = columns, columns + 1
    column = {True: minutes, False: kinds}
    loose = [
        _with_slack(row, column[_of_time(row[0])] if _of_time(row[0]) or _of_kind(row[0]) else None) for row in rows
    ]
    costs = numpy.zeros(columns + 2)
    costs[[kinds, minutes]] = KINDS_FIRST, 1.0
    best = solve(costs, loose, columns + 2)
    return 0.0 if best is None else float(best.values[minutes])


def _chance(seed: int) -> numpy.random.Generator:
    return numpy.random.Generator(numpy.random.PCG64(seed))


def _mean(bank: Bank) -> float:
    return sum(one.difficulty for one in bank) / len(bank)


def _next(
    bank: Bank, spec: DrawingSpecification, found: Sequence[Set], centre: float | None, minutes: float, chance
) -> Set | None:
    rows = next_rows(bank, spec, NOTHING, found)
    if centre is not None:
        low, high = ((centre + sign * spec.tolerance / 2) * spec.tasks for sign in (-1, 1))
        rows.append(("difficulty.tolerance", low, high, {i: one.difficulty for i, one in enumerate(bank)}))
    for soft in (_of_time, lambda name: _of_time(name) or _of_kind(name)):
        loose = _loosened(rows, soft, len(bank) + 1, minutes)
        if loose is not None:
            return _drawn(bank, spec, *loose, chance)
    return None


def _of_time(name: str) -> bool:
    return name.startswith("minutes.")


def _of_kind(name: str) -> bool:
    return name.startswith(("include[", "floors.", "caps.", "spots"))


def _loosened(
    rows: list[Row], soft: Callable[[str], bool], columns: int, minutes: float
) -> tuple[list[Row], int] | None:
    """The rows with a slack column for each soft one, held to as little as will do, and the number of all columns.

    Counts by kind give way as little as possible, then the minutes, but these by `minutes` at least. None where no list
    is possible even so.
    """
    slack = {number: columns + place for place, number in enumerate(n for n, row in enumerate(rows) if soft(row[0]))}
    loose = [_with_slack(row, slack.get(number)) for number, row in enumerate(rows)]
    size = columns + len(slack)
    for turn in (_of_kind, _of_time):
        own = {column: 1.0 for number, column in slack.items() if turn(rows[number][0])}
        costs = numpy.zeros(size)
        costs[list(own)] = 1.0
        best = solve(costs, loose, size - columns + 1, 0.0, STEPS)
        if best is None:
            return None
        least = max(best.objective, minutes if turn is _of_time else 0.0)
        if own:
            loose.append(("given way", -INFINITE, ceil(least - ROOM) + ROOM, own))
    return loose, size


def _with_slack(row: Row, column: int | None) -> Row:
    name, low, high, members = row
    side = 1.0 if high == INFINITE else -1.0
    return row if column is None else (name, low, high, {**members, column: side})


def _drawn(bank: Bank, spec: DrawingSpecification, rows: list[Row], size: int, chance) -> Set | None:
    """A list by chance, or, where there is a target, one near it; column len(bank) is the distance from the target."""
    whole, costs = len(bank), numpy.zeros(size)
    if spec.target:
        costs[whole] = 1.0
        best = solve_shuffled(costs, [*rows, *target_rows(bank, spec, 1)], size - whole, ENOUGH, chance, STEPS)
    else:
        costs[:whole] = chance.random(whole)
        best = solve(costs, rows, size - whole, 0.05, STEPS)
    return best and tuple(i for i in range(whole) if best.values[i] > 0.5)


def _broken(bank: Bank, spec: DrawingSpecification, drawing: Drawing) -> tuple[Broken, ...]:
    """Every rule that a list does not keep, in the order of the specification."""
    by_id = {one.id: one for one in bank}
    found = []
    for place, one in enumerate(drawing.lists):
        for rule, least, most, value in _amounts(spec, one, [by_id[id] for id in one.tasks], bank):
            if least is not None and value < least - ROOM:
                found.append(Broken(f"{rule}.at_least", place, least, value))
            if most is not None and value > most + ROOM:
                found.append(Broken(f"{rule}.at_most", place, most, value))
    return tuple(found)


def _amounts(spec: DrawingSpecification, one: DrawnList, tasks: Bank, bank: Bank):
    """(rule, least, most, amount); the least minutes count the exercises alone."""
    yield "minutes", spec.least_minutes, None, sum(task.minutes for task in tasks)
    yield "minutes", None, spec.most_minutes, one.minutes
    for at, clause in enumerate(spec.include):
        number = sum(task.is_accepted(clause.accepts) for task in tasks)
        yield f"include[{at}]", clause.at_least, clause.at_most, number
    for clause in spec.counts:
        values = {e.fields.get(clause.field, "") for e in bank} - {""} if clause.value is None else {clause.value}
        for value in sorted(values):
            number = sum(task.fields.get(clause.field) == value for task in tasks)
            rule = f"{clause.name}.{value}" if clause.value is None else clause.name
            yield rule, clause.at_least, clause.at_most, number
