"""Intervals for results that need a new fit for each resample of the candidates."""

from collections.abc import Callable

import numpy as np
from scipy.special import stdtrit

DRAWS = 1000
CANDIDATES_DRAWN = 5000
GROUPS = 50


def refit_intervals(
    scores: np.ndarray, fit: Callable[[np.ndarray], np.ndarray], chance: np.random.Generator
) -> tuple[np.ndarray, np.ndarray]:
    """95 % intervals of every number that `fit` gives for `scores` (candidates,).

    Percentiles of 1000 resamples of candidates; above 5000 candidates a jackknife over 50 random groups.
    """
    n = len(scores)
    if n > CANDIDATES_DRAWN:
        group = chance.permutation(n) % GROUPS
        values = np.array([fit(scores[group != left]) for left in range(GROUPS)])
        reach = stdtrit(GROUPS - 1, 0.975) * values.std(axis=0) * np.sqrt(GROUPS - 1)
        return fit(scores) - reach, fit(scores) + reach
    values = np.array([fit(scores[chance.integers(0, n, n)]) for _ in range(DRAWS)])
    values = values[np.isfinite(values).all(axis=1)]
    if len(values) < DRAWS // 2:
        return np.full((2, values.shape[1]), np.nan)
    low, high = np.quantile(values, (0.025, 0.975), axis=0)
    return low, high
