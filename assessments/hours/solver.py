"""A program handed to HiGHS: one thread, a fixed seed, one objective after another on the same model.

Whole numbers only say whether enough is there, so the program without them is solved first, warm from the objective
before. Its optimum stands if whole numbers can be read off it, or if a likely choice of them costs nothing; only
otherwise is the program with whole numbers searched. The answer is the same either way.
"""

from collections.abc import Mapping

import highspy
import numpy as np

from assessments.hours.linear import INFINITE, Matrix, Program
from assessments.hours.whole_numbers import WholeNumbers

# How far what was reached may be missed later: as little as floating point allows, more only if nothing else is left.
SLACKS = (1e-9, 1e-8, 1e-7, 1e-6, 1e-5)
SAME = 1e-6
# highspy.Highs prints a line on standard output while it is made; the class beneath it does not.
Silent = highspy.Highs.__base__


class Solver:
    """Holds one model; `least` and `most` solve for an objective, `hold` pins what was reached."""

    def __init__(self, program: Program):
        self.program = program
        self.width = len(program.upper)
        self.every = np.arange(self.width, dtype=np.int32)
        self.held: list[tuple[np.ndarray, np.ndarray, float, float]] = []
        self.slack = SLACKS[0]
        self.matrix = program.matrix()
        self.whole = WholeNumbers(program, self.matrix) if program.is_whole else None
        self.likely: np.ndarray | None = None
        self.found = np.zeros(self.width)
        self.highs = _highs(presolve="off")
        self.highs.passModel(model_of(program, self.matrix))

    def least(self, objective: Mapping[int, float]) -> float | None:
        """The least value of the objective, or None if nothing satisfies the rows."""
        costs = np.zeros(self.width)
        costs[np.fromiter(objective, dtype=np.int32, count=len(objective))] = [float(one) for one in objective.values()]
        for slack in (one for one in SLACKS if one >= self.slack):
            if slack > self.slack:
                self._loosen(slack)
            value = self._least(costs)
            if value is not None or not self.held:
                return value
        return None

    def most(self, objective: Mapping[int, float]) -> float | None:
        """The largest value of the objective, or None if nothing satisfies the rows."""
        value = self.least({column: -one for column, one in objective.items()})
        return None if value is None else -value

    def hold(self, objective: Mapping[int, float], least: float = -INFINITE, most: float = INFINITE) -> None:
        """Keep the objective within bounds in every later solve."""
        columns = np.array(sorted(objective), dtype=np.int32)
        values = np.array([float(objective[int(one)]) for one in columns])
        self.held.append((columns, values, least, most))
        self.highs.addRow(*_bounds(least, most, self.slack), len(columns), columns, values)

    def values(self) -> list[float]:
        """The variables of the last solve."""
        return self.found.tolist()

    def _loosen(self, slack: float) -> None:
        self.slack = slack
        for place, (_, _, least, most) in enumerate(self.held):
            self.highs.changeRowBounds(len(self.program.rows) + place, *_bounds(least, most, slack))

    def _least(self, costs: np.ndarray) -> float | None:
        self.highs.changeColsCost(self.width, self.every, costs)
        bound = self._relaxed()
        if bound is None:
            return None if self._impossible() else self._searched(costs)
        if self.whole is None or self._can_be_whole():
            return bound
        for numbers in (self.likely, self.whole.likely(self.found)):
            if numbers is not None:
                value = self._with(numbers)
                if value is not None and value <= bound + SAME + 1e-10 * abs(bound):
                    self.likely = numbers
                    return value
        return self._searched(costs)

    def _relaxed(self) -> float | None:
        self.highs.run()
        if self.highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        self.found = np.array(self.highs.getSolution().col_value)
        return self.highs.getInfo().objective_function_value

    def _impossible(self) -> bool:
        return not self.held and self.highs.getModelStatus() == highspy.HighsModelStatus.kInfeasible

    def _can_be_whole(self) -> bool:
        numbers = self.whole.read_off(self.found)
        if numbers is None:
            return False
        self.found[self.whole.columns] = numbers
        return True

    def _with(self, numbers: np.ndarray) -> float | None:
        """The least value with these whole numbers."""
        columns = self.whole.columns
        self.highs.changeColsBounds(len(columns), columns, numbers, numbers)
        value = self._relaxed()
        self.highs.changeColsBounds(len(columns), columns, np.zeros(len(columns)), np.array(self.whole.upper))
        return value

    def _searched(self, costs: np.ndarray) -> float | None:
        """The least value by branch and bound, then taken exactly with the whole numbers that were found."""
        highs = _highs(presolve="on")
        lp = model_of(self.program, self.matrix)
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        lp.integrality_ = [kinds[one] for one in self.program.whole]
        lp.col_cost_ = costs
        highs.passModel(lp)
        for columns, values, least, most in self.held:
            highs.addRow(*_bounds(least, most, self.slack), len(columns), columns, values)
        highs.run()
        if highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        found = np.array(highs.getSolution().col_value)
        value = None
        if self.whole is not None:
            self.likely = np.rint(found[self.whole.columns])
            value = self._with(self.likely)
        if value is None:
            self.found, value = found, highs.getInfo().objective_function_value
        return value


def _bounds(least: float, most: float, slack: float) -> tuple[float, float]:
    low = least if least == -INFINITE else least - slack * max(1.0, abs(least))
    high = most if most == INFINITE else most + slack * max(1.0, abs(most))
    return low, high


def _highs(presolve: str) -> "highspy.Highs":
    highs = Silent()
    for option, value in (
        ("output_flag", False), ("threads", 1), ("random_seed", 1), ("mip_rel_gap", 0.0), ("mip_abs_gap", 1e-6),
        ("mip_feasibility_tolerance", 1e-7), ("presolve", presolve),
    ):  # fmt: skip
        highs.setOptionValue(option, value)
    return highs


def model_of(program: Program, matrix: Matrix | None = None) -> "highspy.HighsLp":
    """The program as HiGHS takes it, without an objective and without whole numbers."""
    matrix = matrix or program.matrix()
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(program.upper), len(program.rows)
    lp.col_cost_ = np.zeros(lp.num_col_)
    lp.col_lower_ = np.zeros(lp.num_col_)
    lp.col_upper_ = np.array(program.upper)
    lp.row_lower_, lp.row_upper_ = np.array(program.least), np.array(program.most)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_, lp.a_matrix_.index_, lp.a_matrix_.value_ = matrix.starts, matrix.index, matrix.value
    return lp
