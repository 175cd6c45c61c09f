"""Infit and outfit of elements and candidates (Wright & Masters 1982, Rating Scale Analysis, ch. 5)."""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.candidates import measures
from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.probabilities import (
    Moments,
    moments,
    probabilities,
    thresholds,
)

# Logits. After a last step of this size, Newton's method is off by far less than a mean square shows.
NEAR = 0.01


@dataclass(frozen=True, slots=True)
class Expected:
    """Of the ratings that take part: their rows, moments (n,), and residuals x - E (n,)."""

    rows: np.ndarray
    moments: Moments
    residual: np.ndarray


@dataclass(frozen=True, slots=True)
class Fit:
    """Mean squares and their t for each element (elements,); nan where there is no rating."""

    infit: np.ndarray
    outfit: np.ndarray
    infit_t: np.ndarray
    outfit_t: np.ndarray
    ratings: np.ndarray


def expected(
    design: RaschDesign,
    full: np.ndarray,
    ability: np.ndarray,
    category: np.ndarray | None = None,
):
    """What the model expects of each rating; ratings of a candidate without a measure (nan) take no part."""
    category = design.category if category is None else category
    rows = np.flatnonzero(np.isfinite(ability)[design.candidate])
    psi = thresholds(design, full)[design.cell[rows]]
    found = moments(probabilities(psi, ability[design.candidate[rows]]))
    return Expected(rows, found, category[rows] - found.mean)


def mean_squares(codes: np.ndarray, levels: int, found: Expected) -> Fit:
    """Fit of each level of `codes` (n,), which belongs to the ratings in `found`."""
    m = found.moments
    variance = np.maximum(m.variance, 1e-12)
    number = np.bincount(codes, minlength=levels)
    with np.errstate(divide="ignore", invalid="ignore"):
        outfit = np.bincount(codes, found.residual**2 / variance, levels) / number
        whole = np.bincount(codes, variance, levels)
        infit = np.bincount(codes, found.residual**2, levels) / whole
        spread_out = np.sqrt(np.bincount(codes, m.fourth / variance**2 - 1, levels)) / number
        spread_in = np.sqrt(np.maximum(np.bincount(codes, m.fourth - variance**2, levels), 0)) / whole
        return Fit(infit, outfit, _t(infit, spread_in), _t(outfit, spread_out), number)


def _t(mean_square: np.ndarray, spread: np.ndarray) -> np.ndarray:
    return (np.cbrt(mean_square) - 1) * (3 / spread) + spread / 3


def fit_ranges(
    design: RaschDesign,
    full: np.ndarray,
    ability: np.ndarray,
    chance: np.random.Generator,
    draws: int,
) -> tuple[np.ndarray, np.ndarray]:
    """What infit and outfit do when the model holds: 2.5 and 97.5 per cent (2, elements) of each.

    Ratings are drawn from the fitted model and candidates measured anew (parametric bootstrap).
    """
    ability = np.nan_to_num(ability)
    chances = probabilities(thresholds(design, full)[design.cell], ability[design.candidate])
    steps, near = np.cumsum(chances, axis=1)[:, :-1], _Near(design, ability, moments(chances))
    infit = np.empty((draws, design.element_count))
    outfit = np.empty_like(infit)
    for draw in range(draws):
        category = (chance.random(len(steps))[:, None] > steps).sum(axis=1)
        again = measures(design, full, category, start=near.to(category), close=NEAR)
        found = expected(design, full, again.estimate, category)
        for place in range(len(design.facets)):
            block = design.block(place)
            codes = design.elements[design.cell, place] - block.start
            here = mean_squares(codes, block.stop - block.start, found)
            infit[draw, block], outfit[draw, block] = here.infit, here.outfit
    ends = (0.025, 0.975)
    return np.quantile(infit, ends, axis=0), np.quantile(outfit, ends, axis=0)


class _Near:
    """From measures to those of other ratings by the same candidates, by Halley's step on the likelihood (Warm's)."""

    def __init__(self, design: RaschDesign, ability: np.ndarray, at: Moments) -> None:
        self._who, self._ability = design.candidate, ability
        sums = (np.bincount(design.candidate, part, len(ability)) for part in (at.mean, at.variance, at.third))
        self._mean, self._information, self._third = sums
        self._information = np.maximum(self._information, 1e-12)

    def to(self, category: np.ndarray) -> np.ndarray:
        away = np.bincount(self._who, category, len(self._ability)) - self._mean
        away = away + self._third / (2 * self._information)
        bend = 1 + self._third * away / (2 * self._information**2)
        return self._ability + np.clip(away / self._information / np.maximum(bend, 0.5), -1, 1)
