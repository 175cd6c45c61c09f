"""Would the same candidates pass again? A preview from the normal curve.

Peng CJ, Subkoviak MJ (1980) J Educ Meas 17:359-368.
"""

import numpy as np
from scipy.special import ndtr, owens_t

from assessments.measurement.true_scores import UNDECIDED, Decisions, decisions

NODES, NODE_WEIGHTS = np.polynomial.legendre.leggauss(200)


def peng_subkoviak(z: float, reliability: float) -> Decisions:
    """Decisions for a cut at z = (cut - 0.5 - mean) / sd of the observed scores."""
    if not 0 < reliability < 1 or not np.isfinite(z):
        return UNDECIDED
    passing = float(ndtr(-z))
    twice = passing - 2 * float(owens_t(z, np.sqrt((1 - reliability) / (1 + reliability))))
    deserving = z / np.sqrt(reliability)
    false_pass = _passing_between(min(-9.0, deserving - 1), deserving, z, reliability)
    right_pass = _passing_between(deserving, max(9.0, deserving + 1), z, reliability)
    return decisions(passing, twice, false_pass, float(ndtr(-deserving)) - right_pass)


def from_scores(scores: np.ndarray, cut: float, reliability: float, step: float = 1.0) -> Decisions:
    """The same from scores that move in steps of `step`."""
    sd = scores.std(ddof=1)
    return peng_subkoviak((cut - step / 2 - scores.mean()) / sd, reliability) if sd > 0 else UNDECIDED


def _passing_between(start: float, end: float, z: float, reliability: float) -> float:
    true = (start + end) / 2 + (end - start) / 2 * NODES
    density = np.exp(-(true**2) / 2) / np.sqrt(2 * np.pi)
    passing = ndtr((np.sqrt(reliability) * true - z) / np.sqrt(1 - reliability))
    return float((end - start) / 2 * (NODE_WEIGHTS @ (density * passing)))
