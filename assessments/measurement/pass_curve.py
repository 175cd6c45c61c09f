"""How many would fail at each cut: the curve that compromise methods read their cut from."""

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class FailCurve:
    """Percent failing (score < cut) at whole cuts 0, 1, …, joined by straight lines."""

    cuts: np.ndarray
    fail_percent: np.ndarray

    def at(self, cut: float) -> float:
        return float(np.interp(cut, self.cuts, self.fail_percent))

    def crossing(self, level: float, slope: float, start: float, end: float) -> float | None:
        """Where fail percent minus (level + slope * cut) changes sign between `start` and `end`; None if nowhere."""
        inner = self.cuts[(self.cuts > start) & (self.cuts < end)]
        places = np.concatenate([[start], inner, [end]])
        heights = np.interp(places, self.cuts, self.fail_percent) - level - slope * places
        if heights[0] == 0:
            return float(start)
        change = np.flatnonzero((heights[:-1] < 0) != (heights[1:] < 0))
        if not len(change):
            return None
        at = change[0]
        share = heights[at] / (heights[at] - heights[at + 1])
        return float(places[at] + share * (places[at + 1] - places[at]))


def fail_curve(scores: np.ndarray, most: float | None = None) -> FailCurve:
    """The curve for cuts from the lowest of 0 and the scores to one above the highest mark."""
    top = int(np.ceil(max(scores.max(), most or 0))) + 1
    cuts = np.arange(min(0, int(np.floor(scores.min()))), top + 1)
    return FailCurve(cuts, 100 * np.searchsorted(np.sort(scores), cuts, side="left") / len(scores))
