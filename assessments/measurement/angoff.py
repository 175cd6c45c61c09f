"""Modified Angoff: judges say how a just-acceptable candidate would do on each element.

Angoff WH (1971) in Thorndike, Educational Measurement, 2nd ed., 508-600; error: Brennan RL, Lockwood RE (1980)
Appl Psychol Meas 4:219-240.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import stdtrit

from assessments.measurement.statistic import Statistic, measured

FAR = 2.0
LEAST_CORRELATION = 0.3


@dataclass(frozen=True, slots=True)
class AngoffCut:
    """The cut with its error for these elements, and for new ones; variance parts; judges who stand apart."""

    cut: Statistic
    se: float
    se_new_elements: float
    median: float
    judge_sd: float
    variances: dict[str, float]
    judge_cuts: np.ndarray
    far: np.ndarray
    at_odds: np.ndarray


def angoff(table: np.ndarray) -> AngoffCut:
    """From `table` (judges, elements): chance of success or expected mark of the just-acceptable candidate."""
    judges, elements = table.shape
    cuts = table.sum(axis=1)
    cut, sd = float(cuts.mean()), float(cuts.std(ddof=1)) if judges > 1 else np.nan
    se = sd / np.sqrt(judges)
    reach = stdtrit(max(judges - 1, 1), 0.975) * se
    variances = _variances(table)
    within = variances["judge"] / judges + variances["residual"] / (judges * elements)
    new = elements * np.sqrt(max(0.0, within + variances["element"] / elements))
    far = np.abs(cuts - cut) > FAR * sd
    return AngoffCut(
        measured(cut, cut - reach, cut + reach, judges),
        float(se),
        float(new),
        float(np.median(cuts)),
        sd,
        variances,
        cuts,
        far,
        _with_the_others(table) < LEAST_CORRELATION,
    )


def _variances(table: np.ndarray) -> dict[str, float]:
    judges, elements = table.shape
    if judges < 2 or elements < 2:
        return dict.fromkeys(("judge", "element", "residual"), np.nan)
    rows, columns = table.mean(axis=1), table.mean(axis=0)
    rest = table - rows[:, None] - columns + table.mean()
    residual = (rest**2).sum() / ((judges - 1) * (elements - 1))
    judge, element = rows.var(ddof=1) - residual / elements, columns.var(ddof=1) - residual / judges
    return {"judge": float(judge), "element": float(element), "residual": float(residual)}


def _with_the_others(table: np.ndarray) -> np.ndarray:
    """(judges,) correlation of each judge with the mean of the others; nan where one does not vary."""
    judges = len(table)
    others = (table.sum(axis=0) - table) / max(judges - 1, 1)
    own, rest = table - table.mean(axis=1, keepdims=True), others - others.mean(axis=1, keepdims=True)
    with np.errstate(invalid="ignore", divide="ignore"):
        return (own * rest).sum(axis=1) / np.sqrt((own**2).sum(axis=1) * (rest**2).sum(axis=1))
