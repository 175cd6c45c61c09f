"""Exercise lists drawn by integer programming.

Source of the model: van der Linden (2005), Linear Models for Optimal Test Design.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import highspy
import numpy

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawing_specification import DrawingSpecification
from curriculum.faults import N_, Fault, RefusedError

SMALL = 60
ENOUGH = 0.01
NODES = 20000
EXACT = 1e-6
# highspy.Highs prints a line on standard output while it is made; the class beneath it does not.
Silent = highspy.Highs.__base__
Row = tuple[str, float, float, dict[int, float]]


@dataclass(frozen=True, slots=True)
class DrawnList:
    """The tasks of one list, its minutes and its mean difficulty."""

    tasks: tuple[str, ...]
    minutes: float
    difficulty: float


@dataclass(frozen=True, slots=True)
class Drawing:
    """`gap` is the distance to the best possible; `deviation` the largest one from the target, if any."""

    lists: tuple[DrawnList, ...]
    proven_optimal: bool
    gap: float
    deviation: float | None = None


def draw(bank: Sequence[BankExercise], spec: DrawingSpecification, lists: int, seed: int) -> Drawing:
    """Draw `lists` lists; raise `RefusedError` naming the clauses that can't hold together."""
    chance = numpy.random.Generator(numpy.random.PCG64(seed))
    return _to_target(bank, spec, lists, chance) if spec.target else _one_by_one(bank, spec, lists, chance)


def _list_rows(bank, spec: DrawingSpecification, shift: int) -> list[Row]:
    infinite = highspy.kHighsInf
    rows: list[Row] = [("tasks", spec.tasks, spec.tasks, {shift + i: 1.0 for i in range(len(bank))})]
    minutes = {shift + i: one.minutes for i, one in enumerate(bank)}
    if spec.least_minutes is not None:
        rows.append(("minutes.at_least", spec.least_minutes, infinite, minutes))
    if spec.most_minutes is not None:
        rows.append(("minutes.at_most", -infinite, spec.most_minutes, minutes))
    for place, clause in enumerate(spec.include):
        members = {shift + i: 1.0 for i, one in enumerate(bank) if one.is_accepted(clause.accepts)}
        if clause.at_least is not None:
            rows.append((f"include[{place}].at_least", clause.at_least, infinite, members))
        if clause.at_most is not None:
            rows.append((f"include[{place}].at_most", -infinite, clause.at_most, members))
    where = {one.id: shift + i for i, one in enumerate(bank)}
    rows += [(f"always[{p}]", 1, 1, {where[one]: 1.0}) for p, one in enumerate(spec.always)]
    rows += [(f"apart[{p}]", -infinite, 1, {where[o]: 1.0 for o in pair}) for p, pair in enumerate(spec.apart)]
    return rows


def solve(costs: numpy.ndarray, rows: list[Row], continuous: int = 0, stop: float = 0.0):
    """Columns are 0 or 1, the last `continuous` ones free from 0; (values, objective, bound) or None."""
    model = Silent()
    for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 1), ("mip_max_nodes", NODES),
                          ("mip_rel_gap", 0.0), ("mip_abs_gap", max(stop, 1e-9))):  # fmt: skip
        model.setOptionValue(option, value)
    for place, cost in enumerate(costs):
        free = place >= len(costs) - continuous
        model.addCol(float(cost), 0.0, highspy.kHighsInf if free else 1.0, 0, [], [])
        if not free:
            model.changeColIntegrality(place, highspy.HighsVarType.kInteger)
    for _, low, high, members in rows:
        model.addRow(low, high, len(members), numpy.array(list(members), dtype=numpy.int32),
                     numpy.array(list(members.values()), dtype=float))  # fmt: skip
    model.run()
    info = model.getInfo()
    if model.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
        return None
    if info.primal_solution_status != 2:
        raise RefusedError([Fault("stopped", N_("no list was found within {nodes} steps"), {"nodes": NODES})])
    return (
        numpy.array(model.getSolution().col_value),
        info.objective_function_value,
        info.mip_dual_bound,
    )


def refuse(columns: int, rows: list[Row], continuous: int = 0) -> RefusedError:
    """Name an irreducible set of clauses: drop each in turn, and keep it dropped while the rest still clash."""
    left = list(dict.fromkeys(name for name, *_ in rows))
    for name in tuple(left):
        tried = [row for row in rows if row[0] in left and row[0] != name]
        if solve(numpy.zeros(columns), tried, continuous) is None:
            left.remove(name)
    clauses = ", ".join(left)
    return RefusedError(
        [
            Fault(
                "clash",
                N_("can't hold together: {clauses}"),
                {"clauses": clauses},
                "specification",
            )
        ]
    )


def _drawn(bank, values: numpy.ndarray, shift: int = 0) -> DrawnList:
    chosen = [one for i, one in enumerate(bank) if values[shift + i] > 0.5]
    mean = sum(one.difficulty for one in chosen) / len(chosen)
    return DrawnList(tuple(one.id for one in chosen), sum(one.minutes for one in chosen), mean)


def _to_target(bank, spec, lists, chance) -> Drawing:
    size, z = len(bank), len(bank) * lists
    rows = [row for f in range(lists) for row in _list_rows(bank, spec, f * size)]
    if spec.overlap is not None:
        rows += _shared_rows(size, lists, spec)
    for point, wanted in spec.target:
        p = [1 / (1 + numpy.exp(one.difficulty - point)) for one in bank]
        for f in range(lists):
            members = {f * size + i: float(q * (1 - q)) for i, q in enumerate(p)}
            rows.append(("target", -highspy.kHighsInf, wanted, {**members, z: -1.0}))
            rows.append(("target", wanted, highspy.kHighsInf, {**members, z: 1.0}))
    columns = z + 1 + _extra(size, lists, spec)
    costs = numpy.zeros(columns)
    costs[z] = 1.0
    stop = 0.0 if z <= SMALL else ENOUGH
    best = solve(costs, rows, columns - z, stop)
    if best is None:
        raise refuse(columns, rows, columns - z)
    values, deviation, bound = best
    costs = numpy.concatenate([chance.random(z), numpy.zeros(columns - z)])
    tie = solve(costs, [*rows, ("best", 0.0, deviation + 1e-7, {z: 1.0})], columns - z, 0.05)
    values = tie[0] if tie else values
    gap = max(0.0, deviation - bound)
    found = tuple(_drawn(bank, values, f * size) for f in range(lists))
    return Drawing(found, gap <= EXACT, 0.0 if gap <= EXACT else gap, deviation)


def _extra(size: int, lists: int, spec) -> int:
    return size * lists * (lists - 1) // 2 if spec.overlap else 0


def _shared_rows(size: int, lists: int, spec) -> list[Row]:
    """At most so many shared by each pair of lists."""
    infinite = highspy.kHighsInf
    if not spec.overlap:
        return [("overlap", -infinite, 1, {f * size + i: 1.0 for f in range(lists)}) for i in range(size)]
    rows, start = [], size * lists + 1
    for f in range(lists):
        for g in range(f):
            for i in range(size):
                rows.append(
                    (
                        "overlap",
                        -infinite,
                        1,
                        {f * size + i: 1.0, g * size + i: 1.0, start + i: -1.0},
                    )
                )
            rows.append(
                (
                    "overlap",
                    -infinite,
                    spec.overlap,
                    {start + i: 1.0 for i in range(size)},
                )
            )
            start += size
    return rows


def _one_by_one(bank, spec, lists, chance) -> Drawing:
    """Each list within half the tolerance of the bank's mean, so within all of it of the mean of all lists."""
    mean = sum(one.difficulty for one in bank) / len(bank)
    found, before, gap = [], [], 0.0
    for _ in range(lists):
        rows = _list_rows(bank, spec, 0)
        if spec.tolerance is not None:
            low, high = ((mean + sign * spec.tolerance / 2) * spec.tasks for sign in (-1, 1))
            rows.append(
                (
                    "difficulty.tolerance",
                    low,
                    high,
                    {i: one.difficulty for i, one in enumerate(bank)},
                )
            )
        if spec.overlap is not None:
            rows += [("overlap", -highspy.kHighsInf, spec.overlap, dict.fromkeys(one, 1.0)) for one in before]
        best = solve(chance.random(len(bank)), rows)
        if best is None:
            raise refuse(len(bank), rows)
        values, cost, bound = best
        gap = max(gap, cost - bound)
        before.append([i for i in range(len(bank)) if values[i] > 0.5])
        found.append(_drawn(bank, values))
    return Drawing(tuple(found), gap <= EXACT, 0.0 if gap <= EXACT else gap)
