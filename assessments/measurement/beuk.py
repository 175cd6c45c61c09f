"""Beuk: what judges ask of a cut and of the share passing, each weighed by how far the judges agree on it.

Beuk CH (1984) J Educ Meas 21:147-152; De Gruijter DNM (1985) J Educ Meas 22:263-269.
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.compromise import with_error
from assessments.measurement.pass_curve import fail_curve
from assessments.measurement.statistic import Statistic, measured, reason, undefined
from curriculum.faults import N_

NO_CROSSING = reason("no-crossing", N_("no solution: the judges' line does not meet the curve of those who pass"))
ONE_CUT = reason("one-cut", N_("all judges ask for the same cut, which stands"))


@dataclass(frozen=True, slots=True)
class BeukCut:
    cut: Statistic
    se: float
    pass_percent: float
    slope: float
    mean_cut: float
    mean_pass: float


def beuk(scores: np.ndarray, judges: np.ndarray, chance: np.random.Generator, most: float | None = None) -> BeukCut:
    """From `scores` and `judges` (judges, 2): the cut each asks for and the percent each expects to pass."""
    mean_cut, mean_pass = (float(mean) for mean in judges.mean(axis=0))
    slope = _slope(judges)
    found = _crossing(scores, judges, most)
    if found is None:
        return BeukCut(undefined(len(scores), NO_CROSSING), np.nan, np.nan, slope, mean_cut, mean_pass)
    passing = 100 - fail_curve(scores, most).at(found)
    if not np.isfinite(slope):
        cut = measured(found, None, None, len(scores)).flagged(ONE_CUT)
        return BeukCut(cut, np.nan, passing, slope, mean_cut, mean_pass)
    cut, se = with_error(found, scores, judges, lambda drawn, some: _crossing(drawn, some, most), chance)
    return BeukCut(cut, se, passing, slope, mean_cut, mean_pass)


def _slope(judges: np.ndarray) -> float:
    if len(judges) < 2:
        return np.nan
    of_cuts, of_passing = judges.std(axis=0, ddof=1)
    return float(of_passing / of_cuts) if of_cuts > 1e-12 else np.nan


def _crossing(scores: np.ndarray, judges: np.ndarray, most: float | None) -> float | None:
    mean_cut, mean_pass = judges.mean(axis=0)
    slope = _slope(judges)
    if not np.isfinite(slope):
        return float(mean_cut)
    curve = fail_curve(scores, most)
    return curve.crossing(100 - mean_pass + slope * mean_cut, -slope, float(curve.cuts[0]), float(curve.cuts[-1]))
