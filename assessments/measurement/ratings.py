"""Ratings of units by examiners, as long arrays, and the tables that the methods take."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np


@dataclass(frozen=True)
class Ratings:
    """One element a rating: place of the unit, of the examiner, of the category; and its number, if it has one.

    `categories` are those of the scale, in order when `ordered`; `values` is None when categories are names.
    `examiners` is empty when it is not known who gave which rating; `from_square` says that only a square table of
    two examiners was given; `owner` (units,) codes whose unit each is, where one candidate may have several.
    """

    unit: np.ndarray
    examiner: np.ndarray
    category: np.ndarray
    units: int
    examiners: tuple[str, ...]
    categories: tuple[str, ...]
    values: np.ndarray | None = None
    ordered: bool = True
    from_square: bool = False
    owner: np.ndarray | None = None

    @cached_property
    def counts(self) -> np.ndarray:
        """(units, categories): how many examiners put the unit there."""
        q = len(self.categories)
        cells = np.bincount(self.unit * q + self.category, minlength=self.units * q)
        return cells.reshape(self.units, q)

    @cached_property
    def ratings_a_unit(self) -> np.ndarray:
        return np.bincount(self.unit, minlength=self.units)

    @property
    def units_with_two(self) -> int:
        return int(np.count_nonzero(self.ratings_a_unit >= 2))

    @property
    def complete(self) -> bool:
        return len(self.unit) == self.units * len(self.examiners)

    def matrix(self, of: np.ndarray) -> np.ndarray:
        """(units, examiners) of floats, nan where there is no rating."""
        table = np.full((self.units, len(self.examiners)), np.nan)
        table[self.unit, self.examiner] = of
        return table

    def pair_table(self, a: int, b: int) -> np.ndarray:
        """(q, q) counts of units rated by both: rows examiner `a`, columns examiner `b`."""
        q = len(self.categories)
        seen = np.full((2, self.units), -1)
        for row, who in enumerate((a, b)):
            own = self.examiner == who
            seen[row, self.unit[own]] = self.category[own]
        first, second = seen[:, (seen >= 0).all(axis=0)]
        return np.bincount(first * q + second, minlength=q * q).reshape(q, q)


def patterns(counts: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Distinct rows of a counts table, and how many units show each; quick when rows are few and short."""
    most = int(counts.max(initial=0)) + 1
    if counts.shape[1] * np.log2(most) < 62:
        keys = counts @ (most ** np.arange(counts.shape[1], dtype=np.int64))
        _, first, times = np.unique(keys, return_index=True, return_counts=True)
        return counts[first], times
    return np.unique(counts, axis=0, return_counts=True)
