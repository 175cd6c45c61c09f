"""Krippendorff's alpha: any number of examiners, missing ratings allowed.

Krippendorff K (2011) Computing Krippendorff's Alpha-Reliability, University of Pennsylvania.
"""

from typing import Literal

import numpy as np

from assessments.measurement.ratings import patterns
from assessments.measurement.resampling import unit_interval
from assessments.measurement.statistic import NO_VARIATION, Statistic, measured, undefined

Metric = Literal["nominal", "ordinal", "interval", "ratio"]


def alpha(counts: np.ndarray, metric: Metric, values: np.ndarray, chance: np.random.Generator) -> Statistic:
    """Alpha with an interval by resampling units, from `counts` (units, categories).

    `values` (categories,) are the numbers of the categories, used by the interval and the ratio metric.
    Units with a single rating say nothing about agreement and are left out.
    """
    paired = counts[counts.sum(axis=1) >= 2]
    if not len(paired):
        return undefined(0, NO_VARIATION)
    seen = paired.any(axis=0)
    rows, times = patterns(paired[:, seen])
    from_weights = _Alpha(rows, metric, np.asarray(values, float)[seen])
    estimate = float(from_weights(times[None].astype(float))[0])
    if not np.isfinite(estimate):
        return undefined(len(paired), NO_VARIATION)
    low, high = unit_interval(from_weights, times, estimate, chance)
    return measured(estimate, low, high, len(paired))


def alpha_of_marks(unit: np.ndarray, values: np.ndarray, units: int, chance: np.random.Generator) -> Statistic:
    """Interval alpha from long arrays, for marks that take too many values to be counted in a table."""
    sizes = np.bincount(unit, minlength=units)
    paired = sizes >= 2
    centred = values - values.mean()
    size, total, squares = (
        np.bincount(unit, part, units)[paired] for part in (np.ones_like(centred), centred, centred**2)
    )
    if not len(size):
        return undefined(0, NO_VARIATION)
    within = 2 * (size * squares - total**2) / (size - 1)
    features = np.column_stack([within, size, total, squares])

    def from_weights(weights: np.ndarray) -> np.ndarray:
        observed, n, sums, all_squares = (weights @ features).T
        expected = 2 * (n * all_squares - sums**2)
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.where(expected > 1e-12, 1 - (n - 1) * observed / expected, np.nan)

    times = np.ones(len(size), np.int64)
    estimate = float(from_weights(times[None].astype(float))[0])
    if not np.isfinite(estimate):
        return undefined(len(size), NO_VARIATION)
    return measured(estimate, *unit_interval(from_weights, times, estimate, chance), len(size))


class _Alpha:
    """Alpha of weighted patterns: the coincidences of a pattern are fixed, their weights are drawn."""

    def __init__(self, rows: np.ndarray, metric: Metric, values: np.ndarray):
        self.metric, self.values, self.rows = metric, values, rows.astype(float)
        self.scale = 1 / (self.rows.sum(axis=1) - 1)
        q = self.rows.shape[1]
        self.coincidences = None
        if metric == "ordinal" and len(rows) * q * q <= 20_000_000:
            self.coincidences = np.einsum("pc,pk,p->pck", self.rows, self.rows, self.scale).reshape(len(rows), -1)
        self.observed = self._disagreement_a_pattern() if metric != "ordinal" else None

    def __call__(self, weights: np.ndarray) -> np.ndarray:
        n_c = weights @ self.rows
        n = n_c.sum(axis=1)
        observed, expected = self._observed_and_expected(weights, n_c)
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.where(expected > 1e-12, 1 - (n - 1) * observed / expected, np.nan)

    def _observed_and_expected(self, weights: np.ndarray, n_c: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        if self.metric != "ordinal":
            return weights @ self.observed, self._expected(n_c)
        block = max(1, 4_000_000 // n_c.shape[1] ** 2)
        parts = [self._ordinal(weights[at : at + block], n_c[at : at + block]) for at in range(0, len(n_c), block)]
        return np.concatenate([part[0] for part in parts]), np.concatenate([part[1] for part in parts])

    def _ordinal(self, weights: np.ndarray, n_c: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        middle = np.cumsum(n_c, axis=1) - n_c / 2
        distance = (middle[:, :, None] - middle[:, None, :]) ** 2
        expected = np.einsum("bck,bc,bk->b", distance, n_c, n_c, optimize=True)
        if self.coincidences is not None:
            pairs = weights @ self.coincidences
            return (pairs * distance.reshape(len(pairs), -1)).sum(axis=1), expected
        pairs = ((self.rows * (w * self.scale)[:, None]).T @ self.rows for w in weights)
        return np.array([(pair * d).sum() for pair, d in zip(pairs, distance, strict=True)]), expected

    def _disagreement_a_pattern(self) -> np.ndarray:
        if self.metric == "interval":
            return self._squares(self.rows, self.values) * self.scale
        if self.metric == "nominal":
            return (self.rows.sum(axis=1) ** 2 - (self.rows**2).sum(axis=1)) * self.scale
        return np.einsum("pc,pc->p", self.rows @ self._ratio_distance(), self.rows) * self.scale

    def _expected(self, n_c: np.ndarray) -> np.ndarray:
        if self.metric == "interval":
            return self._squares(n_c, self.values)
        if self.metric == "nominal":
            return n_c.sum(axis=1) ** 2 - (n_c**2).sum(axis=1)
        return np.einsum("bc,bc->b", n_c @ self._ratio_distance(), n_c)

    @staticmethod
    def _squares(counts: np.ndarray, values: np.ndarray) -> np.ndarray:
        """Sum over ordered pairs of (c - k)^2."""
        centred = values - values.mean()
        return 2 * (counts.sum(axis=1) * (counts @ centred**2) - (counts @ centred) ** 2)

    def _ratio_distance(self) -> np.ndarray:
        difference, total = self.values[:, None] - self.values, self.values[:, None] + self.values
        return np.divide(difference, total, out=np.zeros_like(total), where=total != 0) ** 2
