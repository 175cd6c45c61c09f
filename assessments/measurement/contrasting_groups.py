"""Contrasting groups: the mark that best parts candidates judged competent from those judged not yet so.

Livingston SA, Zieky MJ (1982) Passing Scores, Educational Testing Service; Cizek GJ, Bunch MB (2007) Standard Setting.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import expit

from assessments.measurement.percent import Z
from assessments.measurement.statistic import Statistic, measured, reason, undefined
from curriculum.faults import N_

NO_GROUPS = reason("no-groups", N_("undefined: both groups need candidates"))
NO_RELATION = reason("no-relation", N_("undefined: the score does not rise from the one group to the other"))
SEPARATED = reason("separated", N_("the groups do not overlap: the middle of the gap between them"))


@dataclass(frozen=True, slots=True)
class ContrastCut:
    """Where the chance of being competent is what `share` asks (logistic), and two ways that ignore group sizes.

    `normal_crossing` is where the two normal curves meet; the scores from `least_errors_from` to `least_errors_to`
    misplace the fewest candidates, `errors` of them.
    """

    cut: Statistic
    se: float
    intercept: float
    slope: float
    normal_crossing: float
    least_errors_from: float
    least_errors_to: float
    errors: int


def contrasting_groups(scores: np.ndarray, competent: np.ndarray, share: float = 0.5) -> ContrastCut:
    """Logistic regression of `competent` on `scores`, cut where the chance is `share`."""
    n = len(scores)
    if competent.all() or not competent.any():
        return ContrastCut(undefined(n, NO_GROUPS), *([np.nan] * 6), 0)
    others = normal_crossing(scores, competent), *fewest_errors(scores, competent)
    low, high = scores[~competent].max(), scores[competent].min()
    if low < high:
        return ContrastCut(measured((low + high) / 2, low, high, n).flagged(SEPARATED), np.nan, np.nan, np.nan, *others)
    intercept, slope, covariance = _logistic(scores, competent)
    if not slope > 0:
        return ContrastCut(undefined(n, NO_RELATION), np.nan, intercept, slope, *others)
    level = np.log(share / (1 - share))
    cut = (level - intercept) / slope
    gradient = np.array([-1 / slope, -cut / slope])
    se = float(np.sqrt(gradient @ covariance @ gradient))
    return ContrastCut(measured(cut, cut - Z * se, cut + Z * se, n), se, intercept, slope, *others)


def _logistic(scores: np.ndarray, competent: np.ndarray) -> tuple[float, float, np.ndarray]:
    """Newton's method on the score in standard units; intercept, slope and covariance in marks."""
    mean, sd = scores.mean(), scores.std()
    if sd == 0:
        return np.nan, np.nan, np.full((2, 2), np.nan)
    design = np.column_stack([np.ones(len(scores)), (scores - mean) / sd])
    beta = np.zeros(2)
    for _ in range(100):
        chance = expit(design @ beta)
        information = design.T @ (design * (chance * (1 - chance))[:, None])
        step = np.linalg.lstsq(information, design.T @ (competent - chance), rcond=None)[0]
        beta = beta + step / max(1.0, np.abs(step).max() / 2)
        if np.abs(step).max() < 1e-11:
            break
    back = np.array([[1, -mean / sd], [0, 1 / sd]])
    covariance = back @ np.linalg.pinv(information) @ back.T
    intercept, slope = back @ beta
    return float(intercept), float(slope), covariance


def normal_crossing(scores: np.ndarray, competent: np.ndarray) -> float:
    """Where the normal curves of both groups are equally high, between their means; nan if nowhere."""
    groups = scores[~competent], scores[competent]
    if min(len(group) for group in groups) < 2:
        return np.nan
    (m0, s0), (m1, s1) = ((group.mean(), group.std(ddof=1)) for group in groups)
    if s0 <= 0 or s1 <= 0:
        return np.nan
    squares = [
        1 / s0**2 - 1 / s1**2,
        2 * (m1 / s1**2 - m0 / s0**2),
        m0**2 / s0**2 - m1**2 / s1**2 + 2 * np.log(s0 / s1),
    ]
    roots = np.roots(squares if abs(squares[0]) > 1e-14 else squares[1:])
    between = [root.real for root in roots if abs(root.imag) < 1e-9 and min(m0, m1) <= root.real <= max(m0, m1)]
    return float(between[0]) if between else np.nan


def fewest_errors(scores: np.ndarray, competent: np.ndarray) -> tuple[float, float, int]:
    """Lowest and highest score that, as a cut passing that score and above, misplace the fewest candidates."""
    cuts = np.unique(scores)
    failed_competent = np.searchsorted(np.sort(scores[competent]), cuts, side="left")
    passed_others = (~competent).sum() - np.searchsorted(np.sort(scores[~competent]), cuts, side="left")
    errors = failed_competent + passed_others
    best = cuts[errors == errors.min()]
    return float(best[0]), float(best[-1]), int(errors.min())
