"""A mixed integer program, written row by row and solved by scipy.optimize.milp, objective after objective."""

from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

SLACK = 1e-4
SLACKS = (1e-6, 1e-5, 1e-4, 1e-3)


class InfeasibleError(Exception):
    """No values satisfy every row."""


@dataclass
class Program:
    upper: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    rows: list[tuple[dict[int, float], float, float]] = field(default_factory=list)
    settled: list[tuple[dict[int, float], float]] = field(default_factory=list)

    def variable(self, at_most: float = np.inf, *, whole: bool = False) -> int:
        self.upper.append(float(at_most))
        self.whole.append(int(whole))
        return len(self.upper) - 1

    def require(self, total: dict[int, float], at_least: float = -np.inf, at_most: float = np.inf) -> None:
        self.rows.append(({v: float(c) for v, c in total.items()}, float(at_least), float(at_most)))

    def least(self, objective: dict[int, float]) -> np.ndarray:
        """Values at which the objective is least; what was settled is held as tightly as the solver can."""
        costs = np.zeros(len(self.upper))
        for variable, cost in objective.items():
            costs[variable] = float(cost)
        for slack in SLACKS if self.settled else SLACKS[:1]:
            result = milp(
                costs,
                integrality=np.array(self.whole),
                bounds=Bounds(0, np.array(self.upper)),
                constraints=self._constraints(slack),
                options={"mip_rel_gap": 0},
            )
            if result.x is not None:
                return result.x
        raise InfeasibleError(result.message)

    def settle(self, objective: dict[int, float]) -> np.ndarray:
        """The least of an objective, kept in everything that is asked afterwards."""
        values = self.least(objective)
        self.settled.append((objective, sum(float(c) * values[v] for v, c in objective.items())))
        return values

    def copy(self) -> "Program":
        return Program(list(self.upper), list(self.whole), list(self.rows), list(self.settled))

    def _constraints(self, slack: float) -> LinearConstraint | tuple:
        rows = [*self.rows, *((total, -np.inf, value + slack) for total, value in self.settled)]
        if not rows:
            return ()
        places = [(i, v, c) for i, (total, _, _) in enumerate(rows) for v, c in total.items()]
        data = ([float(c) for _, _, c in places], ([i for i, _, _ in places], [v for _, v, _ in places]))
        matrix = csr_array(data, shape=(len(rows), len(self.upper)))
        return LinearConstraint(matrix, [low for _, low, _ in rows], [high for _, _, high in rows])
