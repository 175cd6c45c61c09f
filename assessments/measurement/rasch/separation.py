"""How far measures differ beyond their error (Wright & Masters 1982, ch. 5), and what shared lessons do to error."""

from dataclasses import dataclass

import numpy as np
from scipy.special import gammaincc

from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.fit import Expected


@dataclass(frozen=True, slots=True)
class Separation:
    """Reliability 1 - MSE / S2, index G, strata (4G + 1) / 3, and the chi-square of "all are equal"."""

    reliability: float
    index: float
    strata: float
    chi_square: float
    freedom: int
    chance: float


def separation(estimate: np.ndarray, error: np.ndarray) -> Separation:
    """Separation of measures (n,) with their standard errors."""
    if len(estimate) < 2:
        return Separation(*[float("nan")] * 4, 0, float("nan"))
    spread, noise = float(np.var(estimate, ddof=1)), float(np.mean(error**2))
    index = np.sqrt(max(spread - noise, 0) / noise) if noise > 0 else float("nan")
    weight = 1 / error**2
    chi = float(weight @ estimate**2 - (weight @ estimate) ** 2 / weight.sum())
    freedom = len(estimate) - 1
    reliability = 1 - noise / spread if spread > 0 else float("nan")
    return Separation(
        reliability,
        float(index),
        float((4 * index + 1) / 3),
        chi,
        freedom,
        float(gammaincc(freedom / 2, chi / 2)),
    )


def reliability_by_weights(estimate: np.ndarray, error: np.ndarray):
    """The reliability as a function of weights (draws, n), for resampling."""

    def from_weights(weights: np.ndarray) -> np.ndarray:
        number = weights.sum(axis=1)
        mean = weights @ estimate / number
        spread = (weights @ estimate**2 - number * mean**2) / (number - 1)
        return 1 - weights @ error**2 / number / spread

    return from_weights


def design_effect(design: RaschDesign, found: Expected, lesson: int) -> float:
    """sum R^2 / sum V (1 - V / I) over candidates and lessons, at least 1.

    R and V are the sum of residuals and of variances of a candidate's ratings at one element of facet `lesson`, I the
    candidate's information: a good or bad day enters every rating of the lesson, so that they tell less than they seem.
    Undefined (nan) where no candidate has two lessons. A moment estimate in the manner of Pearson dispersion
    (McCullagh & Nelder 1989, Generalized Linear Models, 4.5).
    """
    block = design.block(lesson)
    width = block.stop - block.start
    who = design.candidate[found.rows]
    key = who * width + design.elements[design.cell[found.rows], lesson] - block.start
    people = len(design.candidates)
    residual = np.bincount(key, found.residual, people * width)
    variance = np.bincount(key, found.moments.variance, people * width)
    information = np.repeat(np.bincount(who, found.moments.variance, people), width)
    seen = variance > 0
    part = variance[seen] * (1 - variance[seen] / information[seen])
    if part.sum() <= 1e-9 * variance.sum():
        return float("nan")
    several = part > 1e-12 * variance[seen]
    return max(1.0, float(np.sum(residual[seen][several] ** 2) / part[several].sum()))
