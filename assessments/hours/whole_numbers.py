"""Whole numbers read off a solution that was found without them.

In a program of hours a whole number asks for amounts (a negative coefficient: a host counts if there is so much with
them) and is counted (a positive one: at least three hosts). More of a whole number never hurts where it is counted, so
the largest that its amounts allow is the best, taken from the inmost rule outward.
"""

import numpy as np

from assessments.hours.linear import Program

NEAR = 1e-6


class WholeNumbers:
    """The whole columns of a program, the last made first, and the rows they stand in."""

    def __init__(self, program: Program):
        self.program = program
        ordered = [column for column, whole in enumerate(program.whole) if whole]
        self.columns = np.array(ordered, dtype=np.int32)
        self.upper = np.array([program.upper[column] for column in ordered])
        self.place = {column: place for place, column in enumerate(ordered)}
        self.rows: dict[int, dict[int, float]] = {}
        self.amounts: dict[int, tuple[list[int], list[float]]] = {}
        self.within: dict[int, list[tuple[int, float]]] = {column: [] for column in ordered}
        for number, row in enumerate(program.rows):
            inside = {column: float(value) for column, value in row.items() if program.whole[column]}
            if inside:
                self.rows[number] = inside
                rest = [(column, float(value)) for column, value in row.items() if not program.whole[column]]
                self.amounts[number] = [column for column, _ in rest], [value for _, value in rest]
                for column, value in inside.items():
                    self.within[column].append((number, value))

    def read_off(self, values: np.ndarray) -> np.ndarray | None:
        """The largest whole numbers that the other variables allow; None if a rule then fails."""
        plain = values.tolist()
        reached = {
            number: sum(value * plain[column] for column, value in zip(*amounts, strict=True))
            for number, amounts in self.amounts.items()
        }
        numbers = np.zeros(len(self.columns))
        for column in reversed(self.place):
            most = self.program.upper[column]
            for number, value in self.within[column]:
                if value < 0:
                    most = min(most, (reached[number] - self.program.least[number] + NEAR) // -value)
            most = max(0.0, most)
            numbers[self.place[column]] = most
            for number, value in self.within[column]:
                reached[number] += value * most
        enough = all(total >= self.program.least[number] - NEAR for number, total in reached.items())
        return numbers if enough else None

    def likely(self, values: np.ndarray) -> np.ndarray:
        """Whole numbers near the ones found, with as many of the largest raised as the rules count."""
        numbers = {column: float(np.floor(values[column] + NEAR)) for column in self.place}
        counting = [
            (sum(value < 0 for value in inside.values()), number)
            for number, inside in self.rows.items()
            if not self.amounts[number][0] and any(value > 0 for value in inside.values())
        ]
        for _, number in sorted(counting):
            inside = self.rows[number]
            lacking = self.program.least[number] - sum(value * numbers[column] for column, value in inside.items())
            counted = [column for column, value in inside.items() if value > 0]
            for column in sorted(counted, key=lambda one: numbers[one] - values[one]):
                raised = min(max(0.0, np.ceil(lacking - NEAR)), self.program.upper[column] - numbers[column])
                raised = min(raised, 1.0) if column != counted[-1] else raised
                numbers[column] += raised
                lacking -= raised
        return np.array([numbers[column] for column in self.place])
