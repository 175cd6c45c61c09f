"""Would the same candidates pass again? From each candidate's measure and its own standard error.

Rudner LM (2001) Practical Assessment, Research & Evaluation 7(14); (2005) ibid. 10(13).
"""

import numpy as np
from scipy.special import ndtr

from assessments.measurement.true_scores import UNDECIDED, Decisions, decisions


def rudner(measures: np.ndarray, errors: np.ndarray, cut: float) -> Decisions:
    """Decisions for `measures` (candidates,) with standard errors `errors`, passing at `cut` or above."""
    if not len(measures) or not (errors > 0).all():
        return UNDECIDED
    passing = ndtr((measures - cut) / errors)
    above = measures >= cut
    false_pass = np.where(above, 0, passing).mean()
    false_fail = np.where(above, 1 - passing, 0).mean()
    return decisions(passing.mean(), (passing**2).mean(), false_pass, false_fail)
