"""The objectives, one after another: least further time, most credit, declared order, earliest entries.

What was reached is held as exactly as floating point allows, as two categories may pay nearly the same.
"""

from dataclasses import dataclass

from assessments.hours.linear import ones
from assessments.hours.model import Model
from assessments.hours.solver import Solver

TOLERANCE = 1e-5


@dataclass(frozen=True, slots=True)
class Optimum:
    """`further` and `credited` minutes, credit by category, the least further time of each, and every variable."""

    further: float
    credited: float
    by_category: dict[str, float]
    further_at_least: dict[str, float]
    values: list[float]


class Unmeetable(Exception):
    """Nothing satisfies the rules, whatever is logged."""


def _all_further(model: Model) -> dict[int, int]:
    return ones(column for columns in model.further.values() for column in columns)


def _all_given(model: Model) -> dict[int, int]:
    return ones(model.given.values())


def _sum(values: list[float], columns) -> float:
    return sum(values[column] for column in columns)


def can_be_met(model: Model) -> bool:
    """Whether anything satisfies the rules."""
    return Solver(model.program).least(_all_further(model)) is not None


def _least_further(model: Model) -> tuple[Solver, float]:
    solver = Solver(model.program)
    further = _all_further(model)
    least = solver.least(further)
    if least is None:
        raise Unmeetable
    solver.hold(further, most=least)
    return solver, least


def _most_credit(model: Model, solver: Solver) -> float:
    given = _all_given(model)
    if not given:
        return 0.0
    most = solver.most(given)
    if most is None:
        raise Unmeetable
    solver.hold(given, least=most)
    return most


def optimum(model: Model) -> Optimum:
    """The unique numbers, by category too, and the one picture in which the earliest entries come first."""
    solver, least = _least_further(model)
    at_least = _least_of_each(model, solver, least)
    most = _most_credit(model, solver)
    by_category = _in_declared_order(model, solver)
    _earliest_first(model, solver)
    return Optimum(least, most, by_category, at_least, solver.values())


def _least_of_each(model: Model, solver: Solver, least: float) -> dict[str, float]:
    """The least further time of each category among all plans with the least in sum.

    A plan already seen that reaches a bound needs no solve of its own.
    """
    if least <= TOLERANCE:
        return dict.fromkeys(model.further, 0.0)
    seen = [solver.values()]
    found = {}
    for name, columns in model.further.items():
        reached = min(_sum(values, columns) for values in seen)
        if reached > _certain(model, name) + TOLERANCE:
            value = solver.least(ones(columns))
            if value is None:
                raise Unmeetable
            reached = value
            seen.append(solver.values())
        found[name] = max(0.0, reached)
    return found


def _certain(model: Model, name: str) -> float:
    """Further time that the category's own floor asks for whatever is credited."""
    if name in model.chosen or name in model.dropped:
        return 0.0
    ceiling = sum(model.program.upper[column] for _, column in model.by_category[name])
    return max(0.0, float(model.requirements.category(name).at_least - ceiling))


def _in_declared_order(model: Model, solver: Solver) -> dict[str, float]:
    """Credit by category; the last takes what is left of the most there is, so it is not asked for."""
    found = {}
    values = solver.values()
    last = next((name for name in reversed(model.by_category) if model.by_category[name]), "")
    for name, cells in model.by_category.items():
        columns = [column for _, column in cells]
        ceiling = sum(model.program.upper[column] for column in columns)
        reached = _sum(values, columns)
        if columns and name != last and reached < ceiling - TOLERANCE:
            reached = solver.most(ones(columns))
            if reached is None:
                raise Unmeetable
            values = solver.values()
        found[name] = reached
        if columns:
            solver.hold(ones(columns), least=reached)
    return found


def _earliest_first(model: Model, solver: Solver) -> None:
    """Least sum of place times credit; an entry's place is counted among all entries of the log, in (date, id) order.

    Scaled by the last place, so that the objective is of the size of the others.
    """
    if not model.given or _nothing_left_open(model, solver.values()):
        return
    last = max(item.place for item in model.items)
    if solver.least({column: model.items[index].place / last for (index, _), column in model.given.items()}) is None:
        raise Unmeetable


def _nothing_left_open(model: Model, values: list[float]) -> bool:
    """Every entry is credited whole and could go nowhere else: there is only one picture."""
    return all(
        len(model.items[index].credit) == 1 and values[column] >= model.program.upper[column] - 1e-9
        for (index, _), column in model.given.items()
    )
