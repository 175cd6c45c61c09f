"""0/1 programs solved by HiGHS, and the clauses named when none of their answers is allowed."""

from dataclasses import dataclass

import highspy
import numpy

from curriculum.faults import N_, Fault, RefusedError

NODES = 20000
INFINITE = highspy.kHighsInf
# highspy.Highs prints a line on standard output while it is made; the class beneath it does not.
Silent = highspy.Highs.__base__
Row = tuple[str, float, float, dict[int, float]]


@dataclass(frozen=True, slots=True)
class Solved:
    """The value of every column, the objective, and the bound that no answer can undercut."""

    values: numpy.ndarray
    objective: float
    bound: float


def solve(
    costs: numpy.ndarray, rows: list[Row], continuous: int = 0, stop: float = 0.0, nodes: int = NODES
) -> Solved | None:
    """Least cost, or None when nothing is allowed; columns are 0 or 1, the last `continuous` free from 0.

    A row is (name, least, most, coefficients by column). Raises `RefusedError` when stopped before an answer.
    """
    model = _model(costs, rows, continuous, stop, nodes)
    model.run()
    info = model.getInfo()
    if model.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
        return None
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible.value:
        raise RefusedError([Fault("stopped", N_("no list was found within {nodes} steps"), {"nodes": nodes})])
    return Solved(
        numpy.array(model.getSolution().col_value),
        info.objective_function_value,
        info.mip_dual_bound,
    )


def solve_shuffled(
    costs: numpy.ndarray,
    rows: list[Row],
    continuous: int,
    stop: float,
    chance: numpy.random.Generator,
    nodes: int = NODES,
) -> Solved | None:
    """As `solve`, its whole columns in an order left to chance, so that chance picks among answers near the best."""
    whole = len(costs) - continuous
    place = numpy.concatenate([chance.permutation(whole), numpy.arange(whole, len(costs))])
    mixed = numpy.empty(len(costs))
    mixed[place] = costs
    moved = [(name, low, high, {int(place[c]): v for c, v in members.items()}) for name, low, high, members in rows]
    found = solve(mixed, moved, continuous, stop, nodes)
    return found and Solved(found.values[place], found.objective, found.bound)


def _model(costs, rows, continuous, stop, nodes):
    model = Silent()
    for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 1), ("mip_max_nodes", nodes),
                          ("mip_rel_gap", 0.0), ("mip_abs_gap", max(stop, 1e-9))):  # fmt: skip
        model.setOptionValue(option, value)
    for place, cost in enumerate(costs):
        free = place >= len(costs) - continuous
        model.addCol(float(cost), 0.0, INFINITE if free else 1.0, 0, [], [])
        if not free:
            model.changeColIntegrality(place, highspy.HighsVarType.kInteger)
    for _, low, high, members in rows:
        model.addRow(low, high, len(members), numpy.array(list(members), dtype=numpy.int32),
                     numpy.array(list(members.values()), dtype=float))  # fmt: skip
    return model


def refuse(columns: int, rows: list[Row], continuous: int = 0) -> RefusedError:
    """Name an irreducible set of clauses: drop each in turn, and keep it dropped while the rest still clash."""
    left = list(dict.fromkeys(name for name, *_ in rows))
    for name in tuple(left):
        tried = [row for row in rows if row[0] in left and row[0] != name]
        if solve(numpy.zeros(columns), tried, continuous) is None:
            left.remove(name)
    clauses = {"clauses": ", ".join(left)}
    return RefusedError([Fault("clash", N_("can't hold together: {clauses}"), clauses, "specification")])
