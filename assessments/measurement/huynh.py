"""Would the same candidates pass again? For a count of right answers, with KR-21.

Huynh H (1976) J Educ Meas 13:253-264; KR-21: Kuder GF, Richardson MW (1937) Psychometrika 2:151-160.
"""

import numpy as np

from assessments.measurement.true_scores import UNDECIDED, Beta, Decisions, beta_decisions


def kr21(scores: np.ndarray, most: float) -> float:
    """KR-21 of counts 0..most, with the variance over n - 1 (the reliability that the beta-binomial implies)."""
    mean, variance = scores.mean(), scores.var(ddof=1)
    if variance <= 0 or most <= 1:
        return float("nan")
    return float(most / (most - 1) * (1 - mean * (most - mean) / (most * variance)))


def huynh(scores: np.ndarray, cut: float, most: int, reliability: float | None = None) -> Decisions:
    """Decisions for counts of `most` tasks, passing at `cut` or more; beta-binomial with KR-21 or a given one."""
    known = kr21(scores, most) if reliability is None else reliability
    mean = scores.mean()
    if not 0 < known < 1 or not 0 < mean < most:
        return UNDECIDED
    a = (1 / known - 1) * mean
    b = most / known - most - a
    return beta_decisions(Beta(a, b), most, int(np.ceil(cut - 1e-9)), cut / most)
