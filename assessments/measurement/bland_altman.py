"""Differences between two examiners' marks: their mean and the limits within which 95 % of them fall.

Bland JM, Altman DG (1986) Lancet i:307-310; (1999) Stat Methods Med Res 8:135-160.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import stdtr, stdtrit

from assessments.measurement.statistic import Statistic, measured, reason
from curriculum.faults import N_

LIMIT_SDS = 1.96
PAIRS_FOR_MIDDLE = 100
PROPORTIONAL = reason("proportional", N_("the difference grows or shrinks with the mark: read the limits per level"))


@dataclass(frozen=True, slots=True)
class MarkDifferences:
    """Mean difference and limits with their intervals, in marks; slope of difference on mean mark and its p.

    `between` and `within` are the parts of the variance of the differences where candidates gave several pairs, else
    nan. `middle` (2,) are the marks between which 95 % of the differences lay, nan below 100 pairs.
    """

    bias: Statistic
    low: Statistic
    high: Statistic
    sd: float
    limit_se: float
    slope: float
    slope_p: float
    between: float
    within: float
    middle: tuple[float, float]


def mark_differences(a: np.ndarray, b: np.ndarray, owner: np.ndarray | None = None) -> MarkDifferences:
    """Differences a - b of pairs; needs three pairs at least to say anything.

    `owner` (pairs,) codes the candidate of each pair. Where some gave several, the variance of a difference is that
    between candidates plus that within one (Bland & Altman 1999, 5.3; 2007, J Biopharm Stat 17: 571-582).
    """
    d = a - b
    n = len(d)
    spread = _spread(d, owner)
    limit_se = np.sqrt(spread.error**2 + LIMIT_SDS**2 * spread.sd**2 / (2 * spread.freedom)) if n > 1 else np.nan
    slope, p = _slope(d, (a + b) / 2)
    cautions = (PROPORTIONAL,) if p < 0.05 else ()
    mean = float(d.mean()) if n > 1 else np.nan

    def with_reach(estimate: float, error: float, freedom: float) -> Statistic:
        reach = stdtrit(max(freedom, 1), 0.975) * error
        return measured(estimate, estimate - reach, estimate + reach, n).flagged(*cautions)

    bias = with_reach(mean, spread.error, spread.candidates - 1)
    low, high = (with_reach(mean + side * LIMIT_SDS * spread.sd, limit_se, spread.freedom) for side in (-1, 1))
    middle = tuple(float(end) for end in np.quantile(d, (0.025, 0.975))) if n >= PAIRS_FOR_MIDDLE else (np.nan, np.nan)
    return MarkDifferences(bias, low, high, spread.sd, float(limit_se), slope, p, spread.between, spread.within, middle)


@dataclass(frozen=True, slots=True)
class _Spread:
    """Of one difference: standard deviation with its degrees of freedom, error of the mean, and the two parts."""

    sd: float
    freedom: float
    error: float
    candidates: int
    between: float = np.nan
    within: float = np.nan


def _spread(d: np.ndarray, owner: np.ndarray | None) -> _Spread:
    n = len(d)
    if owner is not None:
        owner = np.unique(owner, return_inverse=True)[1]
    people = n if owner is None else int(owner.max(initial=-1)) + 1
    if people == n or people < 2:
        sd = float(d.std(ddof=1)) if n > 1 else np.nan
        return _Spread(sd, n - 1, sd / np.sqrt(max(n, 1)), n)
    number = np.bincount(owner)
    means = np.bincount(owner, d) / number
    square_within = float(np.sum((d - means[owner]) ** 2) / (n - people))
    square_between = float(number @ (means - d.mean()) ** 2 / (people - 1))
    usual = (n - number @ number / n) / (people - 1)
    between = max(0.0, (square_between - square_within) / usual)
    variance = between + square_within
    parts = np.array([square_between / usual, square_within * (1 - 1 / usual)])
    freedom = parts.sum() ** 2 / float(np.sum(parts**2 / [people - 1, n - people])) if parts.sum() > 0 else n - 1
    error = np.sqrt(between * float(number @ number) / n**2 + square_within / n)
    return _Spread(float(np.sqrt(variance)), float(freedom), float(error), people, between, square_within)


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
