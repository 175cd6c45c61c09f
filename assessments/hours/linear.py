"""A linear program with yes/no and whole variables, built row by row in exact numbers."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

import numpy as np

INFINITE = float("inf")


@dataclass(frozen=True, slots=True)
class Matrix:
    """Rows laid end to end: row `r` holds the columns and values from `starts[r]` to `starts[r + 1]`."""

    starts: np.ndarray
    index: np.ndarray
    value: np.ndarray


@dataclass(slots=True)
class Program:
    """Columns with bounds from 0, rows with bounds; `names` says which rule a row comes from."""

    upper: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    rows: list[Mapping[int, Fraction]] = field(default_factory=list)
    least: list[float] = field(default_factory=list)
    most: list[float] = field(default_factory=list)
    names: list[str] = field(default_factory=list)

    def column(self, upper: float = INFINITE, whole: bool = False) -> int:
        """A new variable between 0 and `upper`; its number."""
        self.upper.append(float(upper))
        self.whole.append(whole)
        return len(self.upper) - 1

    def row(
        self,
        terms: Mapping[int, Fraction],
        least: float = -INFINITE,
        most: float = INFINITE,
        name: str = "",
    ) -> int:
        """A new row `least ≤ Σ terms ≤ most`; its number."""
        self.rows.append(terms)
        self.least.append(float(least))
        self.most.append(float(most))
        self.names.append(name)
        return len(self.rows) - 1

    @property
    def is_whole(self) -> bool:
        return any(self.whole)

    def matrix(self) -> Matrix:
        """The rows as arrays."""
        starts, index, value = [0], [], []
        for row in self.rows:
            index.extend(row)
            value.extend(row.values())
            starts.append(len(index))
        return Matrix(
            np.array(starts, dtype=np.int32), np.array(index, dtype=np.int32), np.fromiter(value, float, len(value))
        )


def add(
    terms: dict[int, Fraction],
    other: Mapping[int, Fraction],
    factor: Fraction | int = 1,
) -> dict[int, Fraction]:
    """`terms` plus `factor` times `other`, in place."""
    for column, value in other.items():
        terms[column] = terms.get(column, 0) + value * factor
    return terms


def ones(columns) -> dict[int, Fraction]:
    """Each of these columns once."""
    return dict.fromkeys(columns, 1)
