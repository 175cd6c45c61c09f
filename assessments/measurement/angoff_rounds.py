"""Two rounds of one panel of judges: did they change their minds, and did they come closer together?

Change of the mean: paired t over judges. Change of the spread: Pitman EJG (1939) Biometrika 31:9-12 and Morgan WA (1939)
Biometrika 31:13-19, who test two variances of the same people by the correlation of sum and difference.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import stdtr, stdtrit

from assessments.measurement.statistic import Statistic, measured


@dataclass(frozen=True, slots=True)
class RoundChange:
    """Change of the cut (later less earlier), the judges' spread in both rounds, chance of its change, own changes."""

    change: Statistic
    sd_before: float
    sd_after: float
    sd_p: float
    by_judge: np.ndarray


def compare_rounds(before: np.ndarray, after: np.ndarray) -> RoundChange:
    """From two tables (judges, elements) of the same judges in the same order."""
    first, second = before.sum(axis=1), after.sum(axis=1)
    own, judges = second - first, len(first)
    if judges < 2:
        return RoundChange(measured(own.mean(), None, None, judges), np.nan, np.nan, np.nan, own)
    reach = stdtrit(judges - 1, 0.975) * own.std(ddof=1) / np.sqrt(judges)
    change = measured(own.mean(), own.mean() - reach, own.mean() + reach, judges)
    spread = (float(cuts.std(ddof=1)) for cuts in (first, second))
    return RoundChange(change, *spread, _same_spread(first, second), own)


def _same_spread(first: np.ndarray, second: np.ndarray) -> float:
    """Chance of so large a change of spread if there were none; nan with fewer than 3 judges or nothing to compare."""
    total, away = first + second, second - first
    squares = np.var(total) * np.var(away)
    if len(first) < 3 or squares <= 0:
        return float("nan")
    r = float(np.mean((total - total.mean()) * (away - away.mean())) / np.sqrt(squares))
    if abs(r) >= 1:
        return 0.0
    t = r * np.sqrt((len(first) - 2) / (1 - r**2))
    return float(2 * stdtr(len(first) - 2, -abs(t)))
