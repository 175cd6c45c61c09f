"""Gwet's AC1 and AC2: agreement beyond chance that stays steady when nearly all ratings fall in one category.

Gwet KL (2008) Br J Math Stat Psychol 61:29-48; Gwet KL (2014) Handbook of Inter-Rater Reliability, 4th ed.
"""

import numpy as np
from scipy.special import stdtrit

from assessments.measurement.percent import agreement_a_unit
from assessments.measurement.statistic import Statistic, measured, reason, undefined
from curriculum.faults import N_

ONE_CATEGORY = reason("one-category", N_("undefined: the scale has one category only"))


def agreement_coefficient(
    counts: np.ndarray, weights: np.ndarray, large_sample: bool = False
) -> tuple[Statistic, float]:
    """AC1 (identity weights) or AC2 with a t interval over units, and its standard error.

    With `large_sample` the variance is over n, as Gwet (2008) gives it for two examiners' square table, not n - 1.

    `counts` is (units, categories), the categories being those of the scale; units without ratings are left out.
    """
    r = counts.sum(axis=1)
    counts, r = counts[r > 0], r[r > 0]
    n, paired = len(r), r >= 2
    pairs, q = int(paired.sum()), counts.shape[1]
    if q < 2 or not pairs:
        return undefined(pairs, ONE_CATEGORY), np.nan
    scale = weights.sum() / (q * (q - 1))
    within = np.where(paired, agreement_a_unit(counts, weights), 0.0)
    shares = counts / r[:, None]
    share = shares.mean(axis=0)
    observed, expected = within.sum() / pairs, scale * (share * (1 - share)).sum()
    estimate = (observed - expected) / (1 - expected)
    units = np.where(paired, n / pairs * (within - expected) / (1 - expected), 0.0)
    units = units - 2 * (1 - estimate) * (scale * shares @ (1 - share) - expected) / (1 - expected)
    error = np.sqrt(((units - estimate) ** 2).sum() / (n * (n if large_sample else n - 1))) if n > 1 else np.nan
    reach = stdtrit(max(n - 1, 1), 0.975) * error
    return measured(estimate, max(-1.0, estimate - reach), min(1.0, estimate + reach), pairs), float(error)
