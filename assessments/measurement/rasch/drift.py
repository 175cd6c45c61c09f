"""Examiners who become harsher or milder: a slope on time, and a control chart (Roberts 1959, Technometrics 1: 239)."""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.fit import Expected

LAMBDA = 0.1


@dataclass(frozen=True, slots=True)
class Slope:
    """Of each examiner (examiners,): change of severity a unit of time, its error, t, and over the whole span."""

    slope: np.ndarray
    error: np.ndarray
    t: np.ndarray
    total: np.ndarray
    chart: np.ndarray
    chart_limit: np.ndarray
    outside: np.ndarray


def severity_slopes(codes: np.ndarray, levels: int, time: np.ndarray, found: Expected) -> Slope:
    """`codes` and `time` (n,) belong to the ratings in `found`; time is centred within each examiner, each rating
    weighing by its variance, so that slope and severity do not disturb each other."""
    variance = found.moments.variance
    whole = np.maximum(np.bincount(codes, variance, levels), 1e-12)
    centred = time - (np.bincount(codes, variance * time, levels) / whole)[codes]
    information = np.bincount(codes, variance * centred**2, levels)
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = -np.bincount(codes, found.residual * centred, levels) / information
        error = 1 / np.sqrt(information)
        span = np.array([np.ptp(time[codes == level]) if (codes == level).any() else 0 for level in range(levels)])
        charts = [_chart(codes == level, time, found) for level in range(levels)]
        farthest, limit, outside = (np.array(part) for part in zip(*charts, strict=True))
        return Slope(slope, error, slope / error, slope * span, farthest, limit, outside)


def _chart(mine: np.ndarray, time: np.ndarray, found: Expected) -> tuple[float, float, int]:
    """Exponentially weighted mean of standardised residuals in order of time: farthest value, limit, times outside."""
    limit = 3 * np.sqrt(LAMBDA / (2 - LAMBDA))
    rows = np.flatnonzero(mine)
    rows = rows[np.argsort(time[rows], kind="stable")]
    standard = found.residual[rows] / np.sqrt(np.maximum(found.moments.variance[rows], 1e-12))
    level, farthest, outside = 0.0, 0.0, 0
    for value in standard:
        level += LAMBDA * (value - level)
        outside += abs(level) > limit
        farthest = level if abs(level) > abs(farthest) else farthest
    return float(farthest), float(limit), int(outside)
