"""Fleiss' kappa for many examiners.

Fleiss JL (1971) Psychol Bull 76:378-382; test of no agreement: Fleiss, Nee & Landis (1979) Psychol Bull 86:974-977;
standard error for the interval, and units with unequal numbers of ratings: Gwet KL (2008) Br J Math Stat Psychol
61:29-48 and Gwet KL (2014) Handbook of Inter-Rater Reliability, 4th ed.
"""

import numpy as np
from scipy.special import stdtrit

from assessments.measurement.percent import agreement_a_unit
from assessments.measurement.statistic import NO_VARIATION, Statistic, measured, reason, undefined
from curriculum.faults import N_

UNEQUAL = reason("unequal-numbers", N_("units have unequal numbers of ratings: chance agreement averages over units"))


def fleiss_kappa(counts: np.ndarray) -> tuple[Statistic, float]:
    """Kappa with a t interval over units, and its standard error, from `counts` (units, categories)."""
    r = counts.sum(axis=1)
    counts, r = counts[r > 0], r[r > 0]
    n, paired = len(r), r >= 2
    if not paired.any():
        return undefined(0, NO_VARIATION), np.nan
    q = counts.shape[1]
    within = np.where(paired, agreement_a_unit(counts, np.eye(q)), 0.0)
    shares = counts / r[:, None]
    share = shares.mean(axis=0)
    observed, expected = within.sum() / paired.sum(), float(share @ share)
    if 1 - expected < 1e-12:
        return undefined(int(paired.sum()), NO_VARIATION), np.nan
    estimate = (observed - expected) / (1 - expected)
    units = np.where(paired, n / paired.sum() * (within - expected) / (1 - expected), 0.0)
    units = units - 2 * (1 - estimate) * (shares @ share - expected) / (1 - expected)
    error = np.sqrt(((units - estimate) ** 2).sum() / (n * (n - 1))) if n > 1 else np.nan
    reach = stdtrit(max(n - 1, 1), 0.975) * error
    statistic = measured(estimate, max(-1.0, estimate - reach), min(1.0, estimate + reach), int(paired.sum()))
    return (statistic if len(set(r.tolist())) == 1 else statistic.flagged(UNEQUAL)), float(error)


def category_kappas(counts: np.ndarray) -> np.ndarray:
    """(categories,) kappa of each category against the others; the same number of ratings a unit."""
    n, m = len(counts), counts[0].sum()
    p = counts.sum(axis=0) / (n * m)
    with np.errstate(divide="ignore", invalid="ignore"):
        return 1 - (counts * (m - counts)).sum(axis=0) / (n * m * (m - 1) * p * (1 - p))


def z_of_no_agreement(counts: np.ndarray, kappa: float) -> float:
    """Kappa over its standard error when there is no agreement; a test only, never an interval."""
    n, m = len(counts), counts[0].sum()
    p = counts.sum(axis=0) / (n * m)
    pq = (p * (1 - p)).sum()
    variance = 2 / (n * m * (m - 1)) * (pq**2 - (p * (1 - p) * (1 - 2 * p)).sum()) / pq**2
    return float(kappa / np.sqrt(variance))
