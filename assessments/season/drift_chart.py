"""A control chart of each examiner over the season (Roberts 1959, Technometrics 1: 239-250; ISO 7870-6 EWMA charts).

The exam is the unit: the ratings of one lesson hang together, so that each exam gives one value, the sum of residuals
over its error. Its error is the model's, widened by what the season itself shows (McCullagh & Nelder 1989, 4.5).
"""

from dataclasses import dataclass

import numpy as np

LAMBDA = 0.1
REACH = 3.0


@dataclass(frozen=True, slots=True)
class Chart:
    """One examiner's exams in order of time: places of the exams, weighted means, and how far they may stray.

    A value above 0 says milder than over the whole season, below 0 stricter.
    """

    exams: np.ndarray
    values: np.ndarray
    limits: np.ndarray

    @property
    def outside(self) -> int:
        return int(np.count_nonzero(np.abs(self.values) > self.limits))


def drift_charts(
    exam: np.ndarray, examiner: np.ndarray, examiners: int, residual: np.ndarray, variance: np.ndarray
) -> list[Chart]:
    """A chart for each examiner from ratings (n,); exams are numbered in order of time."""
    width = examiners
    key, place = np.unique(exam * width + examiner, return_inverse=True)
    away, spread = np.bincount(place, residual), np.bincount(place, variance)
    value = away / np.sqrt(np.maximum(spread, 1e-12))
    widened = float(np.sqrt(np.mean(value**2))) if len(value) else 1.0
    value = value / (widened if widened > 0 else 1.0)
    return [_chart(key[key % width == who] // width, value[key % width == who]) for who in range(examiners)]


def _chart(exams: np.ndarray, values: np.ndarray) -> Chart:
    means, mean = [], 0.0
    for value in values:
        mean += LAMBDA * (value - mean)
        means.append(mean)
    turns = np.arange(1, len(values) + 1)
    limits = REACH * np.sqrt(LAMBDA / (2 - LAMBDA) * (1 - (1 - LAMBDA) ** (2 * turns)))
    return Chart(exams, np.array(means), limits)
