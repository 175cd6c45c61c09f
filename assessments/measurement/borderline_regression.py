"""Borderline regression: the mark that goes with the overall grade "borderline".

Wood TJ, Humphrey-Murto SM, Norman GR (2006) Adv Health Sci Educ 11:115-122.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import stdtrit

from assessments.measurement.statistic import NOT_DEFINED, Statistic, measured, reason, undefined
from curriculum.faults import N_

TOO_GOOD = reason(
    "grades-from-marks", N_("grade and mark go together so closely that one was probably made from the other")
)
BACKWARDS = reason("backwards", N_("better grades go with lower marks: look at the grades' order"))
SUSPECT_R2 = 0.95
DRAWS = 1000


@dataclass(frozen=True, slots=True)
class RegressionCut:
    """The cut and its error (by formula and by resampling), the line, and how well the grades fit it."""

    cut: Statistic
    se: float
    se_resampled: float
    intercept: float
    slope: float
    r2: float
    residual_sd: float


def borderline_regression(
    scores: np.ndarray, grades: np.ndarray, borderline: float, chance: np.random.Generator
) -> RegressionCut:
    """Regress `scores` on numeric `grades`; the cut is the line at the grade `borderline`."""
    n, spread = len(scores), ((grades - grades.mean()) ** 2).sum() if len(scores) else 0.0
    if n < 3 or spread <= 0:
        return RegressionCut(undefined(n, NOT_DEFINED), *([np.nan] * 6))
    slope = ((grades - grades.mean()) * scores).sum() / spread
    intercept = scores.mean() - slope * grades.mean()
    squares, total = ((scores - intercept - slope * grades) ** 2).sum(), ((scores - scores.mean()) ** 2).sum()
    residual_sd, r2 = np.sqrt(squares / (n - 2)), 1 - squares / total if total > 0 else np.nan
    cut = intercept + slope * borderline
    se = residual_sd * np.sqrt(1 / n + (borderline - grades.mean()) ** 2 / spread)
    reach = stdtrit(n - 2, 0.975) * se
    cautions = [*([TOO_GOOD] if r2 > SUSPECT_R2 else []), *([BACKWARDS] if slope < 0 else [])]
    statistic = measured(cut, cut - reach, cut + reach, n).flagged(*cautions)
    resampled = _resampled_error(scores, grades, borderline, chance)
    return RegressionCut(statistic, *(float(v) for v in (se, resampled, intercept, slope, r2, residual_sd)))


def _resampled_error(scores: np.ndarray, grades: np.ndarray, borderline: float, chance: np.random.Generator) -> float:
    n = len(scores)
    weights = chance.multinomial(n, np.full(n, 1 / n), size=DRAWS) / n
    cuts = _cuts(weights, scores[:, None], grades[:, None], borderline)
    return float(cuts[np.isfinite(cuts)].std(ddof=1))


def exam_cut(
    scores: np.ndarray, grades: np.ndarray, borderline: float, chance: np.random.Generator
) -> tuple[Statistic, float]:
    """The sum of the exercises' cuts and its error, from (candidates, exercises) scores and grades.

    The same candidates sit every exercise, so they are drawn anew across all of them; adding up
    the exercises' own errors would be too small.
    """
    n = len(scores)
    cut = _cuts(np.ones((1, n)) / n, scores, grades, borderline)[0]
    drawn = _cuts(chance.multinomial(n, np.full(n, 1 / n), size=DRAWS) / n, scores, grades, borderline)
    drawn = drawn[np.isfinite(drawn)]
    if not np.isfinite(cut) or len(drawn) < DRAWS // 2:
        return undefined(n, NOT_DEFINED), np.nan
    low, high = np.quantile(drawn, (0.025, 0.975))
    return measured(cut, low, high, n), float(drawn.std(ddof=1))


def _cuts(weights: np.ndarray, scores: np.ndarray, grades: np.ndarray, borderline: float) -> np.ndarray:
    """(draws,) sums over exercises of the line at `borderline`, for weights (draws, candidates) that sum to 1."""
    x, y = weights @ grades, weights @ scores
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = (weights @ (grades * scores) - x * y) / (weights @ grades**2 - x**2)
    return (y + slope * (borderline - x)).sum(axis=1)
