"""Ratings drawn from the many-facet Rasch model with parameters that are known."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from assessments.measurement.rasch.design import RaschDesign, rasch_design

FACETS = ("examiner", "exercise", "criterion")


@dataclass(frozen=True, slots=True)
class RatingPlan:
    """Who rates what: codes (n,) of each rating."""

    candidate: np.ndarray
    examiner: np.ndarray
    exercise: np.ndarray
    criterion: np.ndarray


@dataclass(frozen=True, slots=True)
class RatingTruth:
    """Severities, difficulties, and steps (criteria, K) or (1, K) for all, in logits; each facet sums to 0."""

    severity: np.ndarray
    exercise: np.ndarray
    criterion: np.ndarray
    steps: np.ndarray


def paired_plan(candidates: int, examiners: int, exercises: int, criteria: int) -> RatingPlan:
    """Two examiners a candidate, every pair of examiners in turn, each rating all criteria of all exercises."""
    pairs = np.array(list(combinations(range(examiners), 2)))
    return plan_of_pairs(pairs[np.arange(candidates) % len(pairs)], exercises, criteria)


def plan_of_pairs(pairs: np.ndarray, exercises: int, criteria: int) -> RatingPlan:
    """From `pairs` (candidates, 2) of examiners."""
    sizes = (len(pairs), 2, exercises, criteria)
    candidate, place, exercise, criterion = (part.ravel() for part in np.indices(sizes))
    return RatingPlan(candidate, pairs[candidate, place], exercise, criterion)


def even_truth(examiners: int, exercises: int, criteria: int, steps: Sequence[Sequence[float]]) -> RatingTruth:
    """Evenly spaced severities from -0.75 to 0.75 and difficulties from -0.5 to 0.5."""
    return RatingTruth(
        np.linspace(-0.75, 0.75, examiners),
        np.linspace(-0.5, 0.5, exercises),
        np.linspace(-0.5, 0.5, criteria),
        np.array(steps, float),
    )


def category_chances(plan: RatingPlan, ability: np.ndarray, truth: RatingTruth, harsher: np.ndarray | float = 0.0):
    """P (n, K + 1) of each category; `ability` (candidates,), `harsher` (n,) is added to the difficulty of a rating."""
    ease = ability[plan.candidate] - truth.severity[plan.examiner] - truth.exercise[plan.exercise]
    ease = ease - truth.criterion[plan.criterion] - harsher
    steps = truth.steps[plan.criterion % len(truth.steps)]
    weight = np.column_stack([np.zeros(len(ease)), np.cumsum(ease[:, None] - steps, axis=1)])
    weight = np.exp(weight - weight.max(axis=1, keepdims=True))
    return weight / weight.sum(axis=1, keepdims=True)


def draw_ratings(chances: np.ndarray, chance: np.random.Generator) -> np.ndarray:
    """One category (n,) for each row of chances."""
    return (chance.random(len(chances))[:, None] > np.cumsum(chances[:, :-1], axis=1)).sum(axis=1)


def rated(plan: RatingPlan, ratings: np.ndarray, steps_of: str | None = None) -> RaschDesign:
    """The ratings as the model sees them; labels are the codes."""
    codes = (plan.examiner, plan.exercise, plan.criterion)
    columns = [(name, _labels(code), code) for name, code in zip(FACETS, codes, strict=True) if code.max() > 0]
    return rasch_design((_labels(plan.candidate), plan.candidate), columns, ratings.astype(float), steps_of)


def _labels(code: np.ndarray) -> tuple[str, ...]:
    return tuple(str(number) for number in range(int(code.max()) + 1))
