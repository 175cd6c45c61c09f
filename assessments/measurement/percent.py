"""Share of pairs of ratings that are the same, or at most one category apart.

Wilson EB (1927) JASA 22:209-212 for the interval with two examiners; with more, the pairs of each unit are averaged
(Gwet KL 2014, Handbook of Inter-Rater Reliability, 4th ed.) and the interval is that of a mean over units.
"""

import numpy as np
from scipy.special import stdtrit

from assessments.measurement.statistic import Statistic, measured

Z = 1.959963984540054


def agreement_a_unit(counts: np.ndarray, weights: np.ndarray) -> np.ndarray:
    """Weighted agreement within each unit of `counts` (units, categories), nan below two ratings."""
    r = counts.sum(axis=1)
    agreeing = np.einsum("ik,ik->i", counts, counts @ weights - 1)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(r >= 2, agreeing / (r * (r - 1)), np.nan)


def agreement(counts: np.ndarray, weights: np.ndarray) -> Statistic:
    """Mean agreement over the units with two ratings or more."""
    shares = agreement_a_unit(counts, weights)
    shares = shares[np.isfinite(shares)]
    n = len(shares)
    mean = float(shares.mean()) if n else np.nan
    if n and np.isin(shares, (0, 1)).all():
        return measured(mean, *_wilson(mean, n), n)
    reach = stdtrit(n - 1, 0.975) * shares.std(ddof=1) / np.sqrt(n) if n > 1 else np.nan
    return measured(mean, max(0.0, mean - reach), min(1.0, mean + reach), n)


def _wilson(share: float, n: int) -> tuple[float, float]:
    middle = share + Z**2 / (2 * n)
    reach = Z * np.sqrt(share * (1 - share) / n + Z**2 / (4 * n**2))
    return max(0.0, (middle - reach) / (1 + Z**2 / n)), min(1.0, (middle + reach) / (1 + Z**2 / n))
