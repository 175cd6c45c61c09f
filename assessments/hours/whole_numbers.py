"""Whole numbers read off a solution that was found without them.

In a program of hours a whole number asks for amounts (a negative coefficient: a host counts if there is so much with
them) and is counted (a positive one: at least three hosts). More of a whole number never hurts where it is counted, so
the largest that its amounts allow is the best, taken from the inmost rule outward.
"""

import numpy as np

from assessments.hours.linear import Matrix, Program

NEAR = 1e-6


class WholeNumbers:
    """The whole columns of a program, the last made first, and the rows they stand in."""

    def __init__(self, program: Program, matrix: Matrix):
        self.upper = [float(program.upper[column]) for column, whole in enumerate(program.whole) if whole]
        is_whole = np.array(program.whole)
        self.columns = np.flatnonzero(is_whole).astype(np.int32)
        self.place = {int(column): place for place, column in enumerate(self.columns)}
        row_of = np.repeat(np.arange(len(program.rows)), np.diff(matrix.starts))
        looked_at = np.zeros(len(program.rows), dtype=bool)
        looked_at[row_of[is_whole[matrix.index]]] = True
        rows, numbered, here = np.flatnonzero(looked_at), np.cumsum(looked_at) - 1, looked_at[row_of]
        among, columns, values = numbered[row_of[here]], matrix.index[here], matrix.value[here]
        plain = ~is_whole[columns]
        self.amounts = among[plain], columns[plain], values[plain]
        self.has_amounts = set(among[plain].tolist())
        self.least = [program.least[row] for row in rows]
        self.rows: list[dict[int, float]] = [{} for _ in rows]
        self.within: list[list[tuple[int, float]]] = [[] for _ in self.columns]
        for row, column, value in zip(among[~plain].tolist(), columns[~plain].tolist(), values[~plain], strict=True):
            place = self.place[column]
            self.rows[row][place] = float(value)
            self.within[place].append((row, float(value)))

    def read_off(self, values: np.ndarray) -> np.ndarray | None:
        """The largest whole numbers that the other variables allow; None if a rule then fails."""
        rows, columns, factors = self.amounts
        reached = np.bincount(rows, weights=factors * values[columns], minlength=len(self.rows)).tolist()
        numbers = [0.0] * len(self.upper)
        for place in range(len(numbers) - 1, -1, -1):
            most = self.upper[place]
            for row, value in self.within[place]:
                if value < 0:
                    most = min(most, (reached[row] - self.least[row] + NEAR) // -value)
            if most > 0:
                numbers[place] = most
                for row, value in self.within[place]:
                    reached[row] += value * most
        enough = all(total >= least - NEAR for total, least in zip(reached, self.least, strict=True))
        return np.array(numbers) if enough else None

    def likely(self, values: np.ndarray) -> np.ndarray:
        """Whole numbers near the ones found, with as many of the largest raised as the rules count."""
        found = values[self.columns].tolist()
        numbers = np.floor(values[self.columns] + NEAR).tolist()
        counting = [
            (sum(value < 0 for value in inside.values()), row)
            for row, inside in enumerate(self.rows)
            if row not in self.has_amounts and any(value > 0 for value in inside.values())
        ]
        for _, row in sorted(counting):
            inside = self.rows[row]
            lacking = self.least[row] - sum(value * numbers[place] for place, value in inside.items())
            counted = sorted(
                (place for place, value in inside.items() if value > 0), key=lambda one: numbers[one] - found[one]
            )
            for place in (*counted, max(counted)):
                most = 1.0 if place != max(counted) else self.upper[place]
                raised = min(max(0.0, float(np.ceil(lacking - NEAR))), self.upper[place] - numbers[place], most)
                numbers[place] += raised
                lacking -= raised
        return np.array(numbers)
