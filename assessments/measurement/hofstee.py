"""Hofstee: a cut between the judges' lowest and highest, failing between their fewest and most.

Hofstee WKB (1983) in Anderson & Helmick, On Educational Testing, 109-127; De Gruijter DNM (1985) J Educ Meas 22:263-269.
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.compromise import with_error
from assessments.measurement.pass_curve import fail_curve
from assessments.measurement.statistic import Statistic, reason, undefined
from curriculum.faults import N_

ABOVE = reason(
    "curve-above", N_("no solution: even the lowest acceptable cut fails more candidates than judges accept")
)
BELOW = reason(
    "curve-below", N_("no solution: even the highest acceptable cut fails fewer candidates than judges expect")
)
EMPTY = reason("empty-box", N_("no solution: the lowest acceptable cut or share lies above the highest"))


@dataclass(frozen=True, slots=True)
class HofsteeCut:
    """The cut, percent failing there, the box, and the nearer corner as a fallback where there is no solution."""

    cut: Statistic
    se: float
    fail_percent: float
    box: tuple[float, float, float, float]
    fallback: float | None


def hofstee(
    scores: np.ndarray, judges: np.ndarray, chance: np.random.Generator, most: float | None = None
) -> HofsteeCut:
    """From `scores` and `judges` (judges, 4): lowest and highest cut, fewest and most percent failing."""
    box = tuple(float(mean) for mean in judges.mean(axis=0))
    found = _crossing(scores, box, most)
    if not isinstance(found, float):
        fallback = {ABOVE.code: box[0], BELOW.code: box[1]}.get(found.code)
        return HofsteeCut(undefined(len(scores), found), np.nan, np.nan, box, fallback)

    def again(drawn: np.ndarray, some: np.ndarray) -> float | None:
        value = _crossing(drawn, tuple(some.mean(axis=0)), most)
        return value if isinstance(value, float) else None

    cut, se = with_error(found, scores, judges, again, chance)
    return HofsteeCut(cut, se, fail_curve(scores, most).at(found), box, None)


def _crossing(scores: np.ndarray, box: tuple[float, ...], most: float | None):
    lowest, highest, fewest, largest = box
    if lowest > highest or fewest > largest:
        return EMPTY
    curve = fail_curve(scores, most)
    if curve.at(lowest) > largest:
        return ABOVE
    if curve.at(highest) < fewest:
        return BELOW
    if lowest == highest:
        return float(lowest)
    slope = (fewest - largest) / (highest - lowest)
    found = curve.crossing(largest - slope * lowest, slope, lowest, highest)
    return float(highest) if found is None else found
