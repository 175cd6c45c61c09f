"""Examiners who become harsher or milder: a slope on time, and a control chart (Roberts 1959, Technometrics 1: 239)."""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.fit import Expected
from assessments.measurement.rasch.interactions import LEAST_LOGITS, false_discovery
from assessments.measurement.rasch.joint import JointFit
from assessments.measurement.rasch.score_test import one_step

LAMBDA = 0.1


@dataclass(frozen=True, slots=True)
class Slope:
    """Of each examiner (examiners,): change of severity a unit of time, its error, t, and over the whole span.

    These hold all else fixed; `one_step` with its error, over the span of all ratings, allows for what candidates and
    elements take in, and tells who stands out.
    """

    slope: np.ndarray
    error: np.ndarray
    t: np.ndarray
    total: np.ndarray
    chart: np.ndarray
    chart_limit: np.ndarray
    outside: np.ndarray
    one_step: np.ndarray
    one_step_error: np.ndarray

    @property
    def chance(self) -> np.ndarray:
        """Chance of so steep a slope without drift, false discoveries among the examiners allowed for."""
        return false_discovery(np.nan_to_num(2 * ndtr(-np.abs(self.one_step / self.one_step_error)), nan=1.0))

    @property
    def stands_out(self) -> np.ndarray:
        return (self.chance <= 0.05) & (np.abs(np.nan_to_num(self.one_step)) >= LEAST_LOGITS)


def severity_slopes(design: RaschDesign, joint: JointFit, judge: int, time: np.ndarray, found: Expected) -> Slope:
    """`time` (n,) of every rating; it is centred within each examiner (facet `judge`), each rating weighing by its
    variance, so that slope and severity do not disturb each other."""
    block = design.block(judge)
    levels, everyone = block.stop - block.start, design.elements[design.cell, judge] - block.start
    whole_span = max(float(np.ptp(time)), 1e-12)
    step, step_error = one_step(design, joint, everyone, levels, (time - time.min()) / whole_span)
    codes, time = everyone[found.rows], time[found.rows]
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
        return Slope(slope, error, slope / error, slope * span, farthest, limit, outside, step, step_error)


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
