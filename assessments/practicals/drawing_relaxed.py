"""Lists where the specification can't be kept whole: rules give way in a stated order, by as little as will do.

First the minutes, then the counts by kind (inclusions, floors, caps, spots); everything else holds. How far each must
give way is found by slack columns (van der Linden 2005, Linear Models for Optimal Test Design, on infeasible models);
then the lists are drawn under the rules as relaxed.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

import numpy

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing import draw
from assessments.practicals.drawing_rows import NOTHING, joint_rows
from assessments.practicals.drawing_solver import INFINITE, Row, solve
from assessments.practicals.drawing_specification import Count, DrawingSpecification, Inclusion
from assessments.practicals.drawn_list import Broken, Drawing, DrawnList, measured_well
from curriculum.faults import RefusedError

Bank = Sequence[BankExercise]
Slack = Mapping[tuple[str, int], float]
# Minutes added for transitions, which no row of the program knows.
MOST_MORE_MINUTES = 512
ROOM = 1e-6
CLASHES = {"clash", "transitions", "left-out"}


def draw_relaxed(
    bank: Bank,
    spec: DrawingSpecification,
    lists: int,
    seed: int,
    pairs: Mapping[tuple[str, str], float] | None = None,
) -> Drawing:
    """As `draw`; where that is refused, minutes give way, then counts by kind, and `broken` says which and where."""
    try:
        return draw(bank, spec, lists, seed, pairs)
    except RefusedError as refusal:
        first = refusal
    if not {fault.code for fault in first.faults} <= CLASHES:
        raise first
    known = measured_well(bank, spec)[0]
    for soft in (_of_time, lambda name: _of_time(name) or _of_kind(name)):
        slack = _least_slack(known, spec, lists, soft)
        if slack is not None:
            drawing = _with_minutes(bank, _relaxed(spec, slack), lists, seed, pairs)
            return replace(drawing, broken=_broken(bank, spec, drawing))
    raise first


def _of_time(name: str) -> bool:
    return name.startswith("minutes.")


def _of_kind(name: str) -> bool:
    return name.startswith(("include[", "floors.", "caps.", "spots"))


def _least_slack(bank: Bank, spec: DrawingSpecification, lists: int, soft: Callable[[str], bool]) -> Slack | None:
    """By rule and side (-1 at least, 1 at most) how far it must give way; None where that does not help.

    Counts by kind give way as little as possible, and then the minutes.
    """
    rows, columns = joint_rows(bank, spec, lists, NOTHING)
    whole = len(bank) * lists
    keys = list(dict.fromkeys(_key(row) for row in rows if soft(row[0])))
    place = {key: columns + number for number, key in enumerate(keys)}
    loose = [_loosened(row, place.get(_key(row))) for row in rows]
    size = columns + len(keys)
    slack: dict[tuple[str, int], float] = {}
    for turn in (_of_kind, _of_time):
        own = {place[key]: 1.0 for key in keys if turn(key[0])}
        costs = numpy.zeros(size)
        costs[list(own)] = 1.0
        found = solve(costs, loose, size - whole)
        if found is None:
            return None
        loose.append(("given way", -INFINITE, found.objective + ROOM, own))
        slack |= {key: float(found.values[at]) for key, at in place.items()}
    return slack


def _key(row: Row) -> tuple[str, int]:
    return row[0], -1 if row[2] == INFINITE else 1


def _loosened(row: Row, column: int | None) -> Row:
    if column is None:
        return row
    name, low, high, members = row
    return name, low, high, {**members, column: -float(_key(row)[1])}


def _relaxed(spec: DrawingSpecification, slack: Slack) -> DrawingSpecification:
    def ends(name: str, least: float | None, most: float | None, whole: bool, plain: bool = False):
        low, high = (name, name) if plain else (f"{name}.at_least", f"{name}.at_most")
        less, more = (slack.get((low, -1), 0.0), slack.get((high, 1), 0.0))
        less, more = (float(round(one)) if whole else one + ROOM * (one > 0) for one in (less, more))
        return None if least is None else least - less, None if most is None else most + more

    include = tuple(
        Inclusion(one.accepts, *ends(f"include[{at}]", one.at_least, one.at_most, True))
        for at, one in enumerate(spec.include)
    )
    counts = tuple(
        Count(one.name, one.field, one.value, *ends(one.name, one.at_least, one.at_most, True, plain=True))
        for one in spec.counts
    )
    least, most = ends("minutes", spec.least_minutes, spec.most_minutes, False)
    return replace(spec, include=include, counts=counts, least_minutes=least, most_minutes=most)


def _with_minutes(bank: Bank, spec: DrawingSpecification, lists: int, seed: int, pairs) -> Drawing:
    """Whole minutes more, as few as the transitions ask for: doubled until lists are found, then halved back."""
    more = 0
    while True:
        try:
            drawing = draw(bank, _longer(spec, more), lists, seed, pairs)
            break
        except RefusedError:
            if spec.most_minutes is None or more >= MOST_MORE_MINUTES:
                raise
            more = max(1, 2 * more)
    low = more // 2
    while more - low > 1:
        middle = (low + more) // 2
        try:
            drawing, more = draw(bank, _longer(spec, middle), lists, seed, pairs), middle
        except RefusedError:
            low = middle
    return drawing


def _longer(spec: DrawingSpecification, more: int) -> DrawingSpecification:
    return spec if spec.most_minutes is None else replace(spec, most_minutes=spec.most_minutes + more)


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
