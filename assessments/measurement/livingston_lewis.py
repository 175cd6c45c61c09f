"""Would the same candidates pass again? For any way of scoring.

Livingston SA, Lewis C (1995) J Educ Meas 32:179-197; true-score moments: Lord FM (1965) Psychometrika 30:239-270;
four-parameter beta: Hanson BA (1991) ACT Research Report 91-5.
"""

import numpy as np

from assessments.measurement.true_scores import UNDECIDED, Beta, Decisions, beta_decisions


def livingston_lewis(scores: np.ndarray, cut: float, most: float, reliability: float, least: float = 0.0) -> Decisions:
    """Decisions for `scores` on `least`..`most`, passing at `cut` or more, with a known reliability."""
    mean, variance = scores.mean(), scores.var(ddof=1)
    if not 0 < reliability < 1 or variance <= 0:
        return UNDECIDED
    length = effective_length(mean, variance, most, reliability, least)
    if length < 2:
        return UNDECIDED
    share = (cut - least) / (most - least)
    true = fitted_beta((scores - least) / (most - least) * length, length)
    if true is None:
        return UNDECIDED
    return beta_decisions(true, length, int(np.ceil(share * length - 1e-9)), share)


def effective_length(mean: float, variance: float, most: float, reliability: float, least: float = 0.0) -> int:
    """How many right-or-wrong tasks would be as reliable."""
    exact = ((mean - least) * (most - mean) - reliability * variance) / (variance * (1 - reliability))
    return int(np.rint(exact))


def fitted_beta(scores: np.ndarray, length: int) -> Beta | None:
    """The true shares behind `scores` of 0..length: four moments, or two on 0..1 where four do not fit."""
    falling, ways, moments = np.ones_like(scores), 1.0, [1.0]
    for order in range(min(4, length)):
        falling, ways = falling * (scores - order), ways * (length - order)
        moments.append(falling.mean() / ways)
    variance = moments[2] - moments[1] ** 2
    if not 0 < moments[1] < 1 or variance <= 0:
        return None
    return (_four_moments(moments, variance) if len(moments) == 5 else None) or _two_moments(moments[1], variance)


def _four_moments(m: list[float], variance: float) -> Beta | None:
    mean = m[1]
    skew = (m[3] - 3 * mean * m[2] + 2 * mean**3) / variance**1.5
    kurtosis = (m[4] - 4 * mean * m[3] + 6 * mean**2 * m[2] - 3 * mean**4) / variance**2
    below = 6 + 3 * skew**2 - 2 * kurtosis
    r = 6 * (kurtosis - skew**2 - 1) / below if below else np.nan
    inner = 24 * (r + 1) / ((r + 2) * (r + 3) * kurtosis - 3 * (r + 1) * (r - 6)) if r > 0 else np.nan
    if not inner <= 1:
        return None
    root = np.sqrt(1 - inner)
    a, b = r / 2 * (1 - root), r / 2 * (1 + root)
    a, b = (b, a) if skew < 0 else (a, b)
    if not (a > 0 and b > 0):
        return None
    reach = np.sqrt(variance * (a + b + 1) / (a * b))
    low, high = mean - a * reach, mean + b * reach
    return Beta(a, b, low, high) if low >= 0 and high <= 1 else None


def _two_moments(mean: float, variance: float) -> Beta | None:
    size = mean * (1 - mean) / variance - 1
    return Beta(mean * size, (1 - mean) * size) if size > 0 else None
