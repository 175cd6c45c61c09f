"""Differences between two examiners' marks: their mean and the limits within which 95 % of them fall.

Bland JM, Altman DG (1986) Lancet i:307-310; (1999) Stat Methods Med Res 8:135-160.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import stdtr, stdtrit

from assessments.measurement.statistic import Statistic, measured, reason
from curriculum.faults import N_

LIMIT_SDS = 1.96
PROPORTIONAL = reason("proportional", N_("the difference grows or shrinks with the mark: read the limits per level"))


@dataclass(frozen=True, slots=True)
class MarkDifferences:
    """Mean difference and limits with their intervals, in marks; slope of difference on mean mark and its p."""

    bias: Statistic
    low: Statistic
    high: Statistic
    sd: float
    limit_se: float
    slope: float
    slope_p: float


def mark_differences(a: np.ndarray, b: np.ndarray) -> MarkDifferences:
    """Differences a - b of pairs; needs three pairs at least to say anything."""
    d = a - b
    n = len(d)
    mean, sd = (float(d.mean()), float(d.std(ddof=1))) if n > 1 else (np.nan, np.nan)
    t = stdtrit(max(n - 1, 1), 0.975)
    limit_se = sd * np.sqrt(1 / n + LIMIT_SDS**2 / (2 * (n - 1))) if n > 1 else np.nan
    slope, p = _slope(d, (a + b) / 2)
    cautions = (PROPORTIONAL,) if p < 0.05 else ()

    def with_reach(estimate: float, reach: float) -> Statistic:
        return measured(estimate, estimate - reach, estimate + reach, n).flagged(*cautions)

    bias = with_reach(mean, t * sd / np.sqrt(max(n, 1)))
    low, high = (with_reach(mean + side * LIMIT_SDS * sd, t * limit_se) for side in (-1, 1))
    return MarkDifferences(bias, low, high, sd, float(limit_se), slope, p)


def _slope(d: np.ndarray, level: np.ndarray) -> tuple[float, float]:
    spread = ((level - level.mean()) ** 2).sum() if len(d) > 2 else 0.0
    if spread <= 0:
        return np.nan, np.nan
    slope = ((level - level.mean()) * d).sum() / spread
    rest = d - d.mean() - slope * (level - level.mean())
    error = np.sqrt((rest @ rest) / (len(d) - 2) / spread)
    if error == 0:
        return float(slope), 1.0 if slope == 0 else 0.0
    return float(slope), float(2 * stdtr(len(d) - 2, -abs(slope / error)))
