"""Severities of the marginal likelihood held against those of the conditional one, which assumes no spread of abilities.

Where the marginal likelihood's assumption holds, both find the same and the first is the more precise, so that the
variance of their difference is the difference of their variances (Hausman 1978, Econometrica 46: 1251-1271).
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.conditional import conditional_fit
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.marginal import MarginalFit

ERRORS, FARTHEST = 2.0, 0.15
# The fits themselves are no finer than this.
CLOSE = 1e-3


@dataclass(frozen=True, slots=True)
class ConditionalAudit:
    """Of each examiner (examiners,): conditional less marginal severity in logits, its error, and whether it alerts.

    `error` is nan where the two variances leave none to the difference; the distance alone alerts then. An examiner
    whom a weak prior holds near the average is not compared: difference and error are nan.
    """

    difference: np.ndarray
    error: np.ndarray
    apart: np.ndarray


def conditional_audit(design: RaschDesign, marginal: MarginalFit, judge: int) -> ConditionalAudit:
    """Fit anew by the conditional likelihood and compare the facet at place `judge`.

    An alert: more than two errors of the difference, or more than 0.15 logits. `LinAlgError` where the conditional
    likelihood has no maximum.
    """
    own = design.block(judge)
    conditional = conditional_fit(design, marginal.full)
    variance = np.diag(conditional.covariance - marginal.covariance)[own]
    return compared(
        np.where(design.prior()[own] > 0, np.nan, (conditional.full - marginal.full)[own]),
        np.where(variance > 1e-6 * np.diag(marginal.covariance)[own], variance, np.nan),
    )


def compared(difference: np.ndarray, variance: np.ndarray) -> ConditionalAudit:
    """The alerts of these differences (examiners,) in logits; nan compares with nothing."""
    error = np.where(np.isnan(difference), np.nan, np.sqrt(variance))
    away = np.abs(difference)
    apart = (away > FARTHEST) | (away > ERRORS * error + CLOSE)
    return ConditionalAudit(difference, error, apart)
