"""Cohen's kappa, plain and weighted, for two examiners.

Cohen J (1960) Educ Psychol Meas 20:37-46; Cohen J (1968) Psychol Bull 70:213-220;
standard error: Fleiss JL, Cohen J, Everitt BS (1969) Psychol Bull 72:323-327.
"""

import numpy as np

from assessments.measurement.percent import Z
from assessments.measurement.resampling import unit_interval
from assessments.measurement.statistic import NO_VARIATION, Statistic, measured, undefined

UNITS_FOR_ANALYTIC = 100


def kappa(table: np.ndarray, weights: np.ndarray, chance: np.random.Generator) -> tuple[Statistic, float]:
    """Kappa with its interval, and its standard error, from a (q, q) table of counts.

    The interval is analytic from 100 units, below by resampling units. Undefined when both examiners
    used a single category, the same one.
    """
    n = int(table.sum())
    estimate = float(_kappas(table[None].astype(float), weights)[0]) if n else np.nan
    if not np.isfinite(estimate):
        return undefined(n, NO_VARIATION), np.nan
    error = standard_error(table, weights)
    if n >= UNITS_FOR_ANALYTIC:
        return measured(estimate, max(-1.0, estimate - Z * error), min(1.0, estimate + Z * error), n), error
    cells = np.flatnonzero(table)

    def from_weights(drawn: np.ndarray) -> np.ndarray:
        tables = np.zeros((len(drawn), table.size))
        tables[:, cells] = drawn
        return _kappas(tables.reshape(-1, *table.shape), weights)

    low, high = unit_interval(from_weights, table.ravel()[cells], estimate, chance)
    return measured(estimate, low, high, n), error


def standard_error(table: np.ndarray, weights: np.ndarray) -> float:
    """Large-sample standard error of kappa (Fleiss, Cohen & Everitt 1969)."""
    n = table.sum()
    p = table / n
    rows, columns = p.sum(axis=1), p.sum(axis=0)
    observed, expected = (weights * p).sum(), rows @ weights @ columns
    kappa_w = (observed - expected) / (1 - expected)
    means = (weights @ columns)[:, None] + rows @ weights
    spread = (p * (weights - means * (1 - kappa_w)) ** 2).sum() - (kappa_w - expected * (1 - kappa_w)) ** 2
    return float(np.sqrt(max(0.0, spread) / n) / (1 - expected))


def _kappas(tables: np.ndarray, weights: np.ndarray) -> np.ndarray:
    p = tables / tables.sum(axis=(1, 2), keepdims=True)
    observed = np.einsum("bij,ij->b", p, weights)
    expected = np.einsum("bi,ij,bj->b", p.sum(axis=2), weights, p.sum(axis=1), optimize=True)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(1 - expected > 1e-12, (observed - expected) / (1 - expected), np.nan)
