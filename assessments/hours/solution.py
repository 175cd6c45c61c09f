"""The objectives, one after another: least further time, most credit, declared order, earliest entries."""

from dataclasses import dataclass
from fractions import Fraction

from assessments.hours.linear import ones
from assessments.hours.model import Model
from assessments.hours.solver import Solver

TOLERANCE = 1e-5


@dataclass(frozen=True, slots=True)
class Optimum:
    """`further` and `credited` minutes, credit by category, and the least further time of each."""

    further: float
    credited: float
    by_category: dict[str, float]
    further_at_least: dict[str, float]


class Unmeetable(Exception):
    """Nothing satisfies the rules, whatever is logged."""


def _all_further(model: Model) -> dict[int, int]:
    return ones(column for columns in model.further.values() for column in columns)


def _all_given(model: Model) -> dict[int, int]:
    return ones(model.given.values())


def _sum(values: list[float], columns) -> float:
    return sum(values[column] for column in columns)


def first_two(model: Model) -> tuple[Solver, float, float]:
    """Least further time, then most credit; the solver holds both."""
    solver, least = _least_further(model)
    return solver, least, _most_credit(model, solver)


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
    """Solve in classes: the unique numbers, by category too."""
    solver, least = _least_further(model)
    at_least = _least_of_each(model, solver, least)
    most = _most_credit(model, solver)
    return Optimum(least, most, _in_declared_order(model, solver), at_least)


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
    found = {}
    values = solver.values()
    for name, cells in model.by_category.items():
        columns = [column for _, column in cells]
        ceiling = sum(model.program.upper[column] for column in columns)
        reached = _sum(values, columns)
        if columns and reached < ceiling - TOLERANCE:
            reached = solver.most(ones(columns)) or 0.0
            values = solver.values()
        found[name] = reached
        if columns:
            solver.hold(ones(columns), least=reached)
    return found


def picture(model: Model, best: Optimum) -> list[float]:
    """The variables of the picture in which the earliest entries come first; `model` keeps every entry apart."""
    solver = Solver(model.program)
    solver.hold(_all_further(model), most=best.further)
    for name, cells in model.by_category.items():
        if cells:
            solver.hold(
                ones(column for _, column in cells),
                least=best.by_category[name] - TOLERANCE,
            )
    order = sorted(
        range(len(model.items)),
        key=lambda i: (model.items[i].entries[0].date, model.items[i].entries[0].id),
    )
    rank = {index: place + 1 for place, index in enumerate(order)}
    scale = max(1, len(order))
    cost = {column: Fraction(rank[index], scale) for (index, _), column in model.given.items()}
    if cost and solver.least(cost) is None:
        raise Unmeetable
    if not cost and solver.least(_all_further(model)) is None:
        raise Unmeetable
    return solver.values()
