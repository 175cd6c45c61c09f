"""Intervals by resampling whole units (Efron & Tibshirani 1993, An Introduction to the Bootstrap, ch. 13 and 14).

Units that look alike are drawn together: a resample of n units is a multinomial draw over the distinct
patterns, so that a hundred units and a million with few patterns cost the same.
"""

from collections.abc import Callable, Iterator

import numpy as np
from scipy.special import ndtr, ndtri, stdtrit

DRAWS = 1000
UNITS_DRAWN_ONE_BY_ONE = 1000
GROUPS = 100
STEEP = 0.8
FromWeights = Callable[[np.ndarray], np.ndarray]


def unit_interval(
    from_weights: FromWeights, counts: np.ndarray, estimate: float, chance: np.random.Generator, draws: int = DRAWS
) -> tuple[float, float]:
    """A 95 % interval for a statistic of weighted patterns.

    `counts` (patterns,) says how many units show each pattern; `from_weights` takes weights (draws, patterns)
    and gives (draws,) values. Up to 1000 units, or where patterns are few: percentile bootstrap, BCa when
    |estimate| > 0.8. Above, with many patterns: a jackknife that leaves out one of 100 random groups of units.
    """
    if not np.isfinite(estimate):
        return np.nan, np.nan
    units = int(counts.sum())
    if units > UNITS_DRAWN_ONE_BY_ONE and len(counts) > UNITS_DRAWN_ONE_BY_ONE:
        return _grouped_jackknife(from_weights, counts, estimate, chance)
    values = np.sort(_in_blocks(from_weights, chance.multinomial(units, counts / units, size=draws)))
    values = values[np.isfinite(values)]
    if len(values) < draws // 2:
        return np.nan, np.nan
    shares = _bca_shares(from_weights, counts, estimate, values) if abs(estimate) > STEEP else (0.025, 0.975)
    low, high = np.quantile(values, shares)
    # Far from the middle a percentile interval can miss the very estimate it belongs to.
    return min(float(low), estimate), max(float(high), estimate)


def _bca_shares(
    from_weights: FromWeights, counts: np.ndarray, estimate: float, values: np.ndarray
) -> tuple[float, float]:
    below = np.mean(values < estimate) + np.mean(values == estimate) / 2
    if not 0 < below < 1:
        return 0.025, 0.975
    without = _in_blocks(from_weights, counts - np.eye(len(counts)))
    away = np.average(without, weights=counts) - without
    spread = np.sum(counts * away**2)
    if not (np.isfinite(spread) and spread > 0):
        return 0.025, 0.975
    acceleration = np.sum(counts * away**3) / (6 * spread**1.5)
    shift = ndtri(below)
    ends = shift + ndtri(np.array([0.025, 0.975]))
    low, high = ndtr(shift + ends / (1 - acceleration * ends))
    return float(low), float(high)


def _grouped_jackknife(
    from_weights: FromWeights, counts: np.ndarray, estimate: float, chance: np.random.Generator
) -> tuple[float, float]:
    values = np.empty(GROUPS)
    for group, share in enumerate(_groups(counts, chance)):
        values[group] = from_weights((counts - share)[None].astype(float))[0]
    error = np.sqrt((GROUPS - 1) / GROUPS * np.sum((values - values.mean()) ** 2))
    reach = stdtrit(GROUPS - 1, 0.975) * error
    return float(estimate - reach), float(estimate + reach)


def _groups(counts: np.ndarray, chance: np.random.Generator) -> Iterator[np.ndarray]:
    """How many units of each pattern fall into each of 100 random groups."""
    if counts.max() == 1:
        group = chance.permutation(len(counts)) % GROUPS
        yield from (group == each for each in range(GROUPS))
        return
    left = counts.astype(np.int64)
    for group in range(GROUPS):
        share = chance.binomial(left, 1 / (GROUPS - group))
        left = left - share
        yield share


def _in_blocks(from_weights: FromWeights, weights: np.ndarray) -> np.ndarray:
    block = max(1, 4_000_000 // max(1, weights.shape[1]))
    with np.errstate(divide="ignore", invalid="ignore"):
        parts = [from_weights(weights[start : start + block]) for start in range(0, len(weights), block)]
    return np.concatenate(parts)
