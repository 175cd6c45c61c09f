"""A program handed to HiGHS: one thread, a fixed seed, one objective after another on the same model."""

from collections.abc import Mapping

import highspy
import numpy as np

from assessments.hours.linear import INFINITE, Program

SLACK = 1e-6
# highspy.Highs prints a line on standard output while it is made; the class beneath it does not.
Silent = highspy.Highs.__base__


class Solver:
    """Holds one model; `least` and `most` solve for an objective, `hold` pins what was reached."""

    def __init__(self, program: Program):
        self.highs = Silent()
        for option, value in (
            ("output_flag", False), ("threads", 1), ("random_seed", 1), ("mip_rel_gap", 0.0), ("mip_abs_gap", 1e-4),
            ("mip_feasibility_tolerance", 1e-7),
        ):  # fmt: skip
            self.highs.setOptionValue(option, value)
        self.width = len(program.upper)
        self.costs: set[int] = set()
        self.highs.passModel(model_of(program))

    def least(self, objective: Mapping[int, float]) -> float | None:
        """The least value of the objective, or None if nothing satisfies the rows."""
        return self._solve(objective, highspy.ObjSense.kMinimize)

    def most(self, objective: Mapping[int, float]) -> float | None:
        """The largest value of the objective, or None if nothing satisfies the rows."""
        return self._solve(objective, highspy.ObjSense.kMaximize)

    def _solve(self, objective: Mapping[int, float], sense: object) -> float | None:
        for column in self.costs - objective.keys():
            self.highs.changeColCost(column, 0.0)
        for column, value in objective.items():
            self.highs.changeColCost(column, float(value))
        self.costs = set(objective)
        self.highs.changeObjectiveSense(sense)
        self.highs.run()
        if self.highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        return self.highs.getInfo().objective_function_value

    def hold(
        self,
        objective: Mapping[int, float],
        least: float = -INFINITE,
        most: float = INFINITE,
    ) -> None:
        """Keep the objective within bounds in every later solve, with a hair of slack."""
        columns = np.array(sorted(objective), dtype=np.int32)
        values = np.array([float(objective[int(one)]) for one in columns])
        low = least if least == -INFINITE else least - SLACK * max(1.0, abs(least))
        high = most if most == INFINITE else most + SLACK * max(1.0, abs(most))
        self.highs.addRow(low, high, len(columns), columns, values)

    def values(self) -> list[float]:
        """The variables of the last solve."""
        return list(self.highs.getSolution().col_value)


def model_of(program: Program) -> "highspy.HighsLp":
    """The program as HiGHS takes it, without an objective."""
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(program.upper), len(program.rows)
    lp.col_cost_ = np.zeros(lp.num_col_)
    lp.col_lower_ = np.zeros(lp.num_col_)
    lp.col_upper_ = np.array(program.upper)
    lp.row_lower_, lp.row_upper_ = np.array(program.least), np.array(program.most)
    starts, index, value = [0], [], []
    for row in program.rows:
        index.extend(row.keys())
        value.extend(map(float, row.values()))
        starts.append(len(index))
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.array(starts, dtype=np.int32)
    lp.a_matrix_.index_ = np.array(index, dtype=np.int32)
    lp.a_matrix_.value_ = np.array(value, dtype=float)
    if program.is_whole:
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        lp.integrality_ = [kinds[one] for one in program.whole]
    return lp
