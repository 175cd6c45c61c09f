"""Candidates' measures: weighted likelihood (Warm 1989, Psychometrika 54: 427-450), finite for every score."""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.probabilities import (
    moments,
    probabilities,
    thresholds,
)

MOST_ROUNDS = 60
FARTHEST = 30.0
CLOSE = 1e-10


@dataclass(frozen=True, slots=True)
class Measures:
    """Of each candidate (candidates,): measure, standard error 1 / sqrt(information), raw mean, at a limit or not."""

    estimate: np.ndarray
    error: np.ndarray
    raw: np.ndarray
    at_limit: np.ndarray
    ratings: np.ndarray


def measures(
    design: RaschDesign,
    full: np.ndarray,
    category: np.ndarray | None = None,
    weighted: bool = True,
    start: np.ndarray | None = None,
    close: float = CLOSE,
):
    """Measures given the severities; `weighted=False` gives maximum likelihood, nan at the limits.

    `start` (candidates,) is where to begin, `close` how far from settled (logits) is settled enough.
    """
    category = design.category if category is None else category
    psi = thresholds(design, full)[design.cell]
    people, who = len(design.candidates), design.candidate
    score, highest = np.bincount(who, category, people), design.highest()
    limit = (score == 0) | (score == highest)
    theta = np.log((score + 0.5) / (highest - score + 0.5)) + _middle(design, full) if start is None else start
    for _ in range(MOST_ROUNDS):
        found = moments(probabilities(psi, theta[who]))
        info = np.maximum(np.bincount(who, found.variance, people), 1e-12)
        away = score - np.bincount(who, found.mean, people)
        if weighted:
            away = away + np.bincount(who, found.third, people) / (2 * info)
        move = np.clip(away / info, -1, 1)
        if not weighted:
            move[limit] = 0
        theta = np.clip(theta + move, -FARTHEST, FARTHEST)
        if np.abs(move).max(initial=0) < close:
            break
    if not weighted:
        theta = np.where(limit, np.nan, theta)
    values = design.values[design.group[design.cell], category]
    number = np.bincount(who, minlength=people)
    raw = np.bincount(who, values, people) / np.maximum(number, 1)
    return Measures(theta, 1 / np.sqrt(info), raw, limit, number)


def _middle(design: RaschDesign, full: np.ndarray) -> np.ndarray:
    location = design.location(full)[design.cell]
    number = np.bincount(design.candidate, minlength=len(design.candidates))
    return np.bincount(design.candidate, location, len(number)) / np.maximum(number, 1)


def adjusted_scores(
    design: RaschDesign, full: np.ndarray, found: Measures, judge: int
) -> tuple[np.ndarray, np.ndarray]:
    """What an examiner of average severity would give on the whole blueprint: mean rating and its error.

    `judge` is the place of the examiners' facet; the blueprint is every combination of the others that was used.
    """
    others = [place for place in range(len(design.facets)) if place != judge]
    sheet, first = np.unique(design.elements[:, others], axis=0, return_index=True)
    location = full[sheet].sum(axis=1) if others else np.zeros(1)
    group = design.group[first] if others else design.group[:1]
    steps = design.step_table(full)[group] + location[:, None]
    psi = np.column_stack([np.zeros(len(group)), -np.cumsum(steps, axis=1)])
    psi[np.arange(design.steps + 1) > design.top[group][:, None]] = -np.inf
    value = np.nan_to_num(design.values[group])
    mean, slope = np.zeros(len(found.estimate)), np.zeros(len(found.estimate))
    for row, worth in zip(psi, value, strict=True):
        chances = probabilities(np.broadcast_to(row, (len(mean), len(row))), found.estimate)
        mean += chances @ worth
        place = chances @ np.arange(len(worth))
        slope += chances @ (worth * np.arange(len(worth))) - (chances @ worth) * place
    return mean / len(psi), slope / len(psi) * found.error
