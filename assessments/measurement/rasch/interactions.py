"""Examiners who are harsher on one element than on others; a screen first, then a fit with the terms that stand out.

The screen holds all else fixed, which makes terms look small; what stands out is told by the score test, term by term.

False discoveries held to 5 per cent over all pairs (Benjamini & Hochberg 1995, JRSS B 57: 289-300).
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import block_diag
from scipy.special import ndtr

from assessments.measurement.rasch.design import PINNED, Facet, RaschDesign
from assessments.measurement.rasch.joint import JointFit, joint_fit
from assessments.measurement.rasch.probabilities import (
    moments,
    probabilities,
    thresholds,
)
from assessments.measurement.rasch.score_test import one_step

LEAST_LOGITS = 0.3
MOST_ROUNDS = 30


@dataclass(frozen=True, slots=True)
class Screen:
    """Of each pair that met (pairs,): the two codes, extra severity with error, t, adjusted chance, ratings.

    `one_step` and its error allow for what all else takes in (nan where nothing is left); chances go by them if known.
    """

    one: np.ndarray
    other: np.ndarray
    bias: np.ndarray
    error: np.ndarray
    t: np.ndarray
    chance: np.ndarray
    ratings: np.ndarray
    one_step: np.ndarray
    one_step_error: np.ndarray

    @property
    def stands_out(self) -> np.ndarray:
        return (self.chance <= 0.05) & (np.abs(np.nan_to_num(self.one_step)) >= LEAST_LOGITS)


def screen(
    design: RaschDesign,
    full: np.ndarray,
    ability: np.ndarray,
    one: np.ndarray,
    other: np.ndarray,
    joint: JointFit,
) -> Screen:
    """Extra severity b of each pair of codes (n,): sum (x - E(b)) = 0 with all else fixed, error 1 / sqrt(sum V)."""
    width = int(other.max()) + 1
    keys, pair = np.unique(one * width + other, return_inverse=True)
    psi = thresholds(design, full)[design.cell]
    theta = ability[design.candidate]
    bias = np.zeros(len(keys))
    for _ in range(MOST_ROUNDS):
        found = moments(probabilities(psi, theta - bias[pair]))
        information = np.maximum(np.bincount(pair, found.variance), 1e-12)
        away = np.bincount(pair, design.category - found.mean)
        move = np.clip(-away / information, -1, 1)
        bias = np.clip(bias + move, -10, 10)
        if np.abs(move).max() < 1e-9:
            break
    error = 1 / np.sqrt(information)
    step, step_error = one_step(design, joint, pair, len(keys), np.ones(len(pair)))
    chance = false_discovery(np.nan_to_num(2 * ndtr(-np.abs(step / step_error)), nan=1.0))
    t = bias / error
    return Screen(keys // width, keys % width, bias, error, t, chance, np.bincount(pair), step, step_error)


def false_discovery(chance: np.ndarray) -> np.ndarray:
    """Benjamini-Hochberg adjusted chances."""
    order = np.argsort(chance)
    size = len(chance)
    stepped = chance[order] * size / np.arange(1, size + 1)
    adjusted = np.empty(size)
    adjusted[order] = np.minimum(np.minimum.accumulate(stepped[::-1])[::-1], 1)
    return adjusted


def with_terms(design: RaschDesign, term: np.ndarray, labels: tuple[str, ...]) -> RaschDesign:
    """The design with extra terms: `term` (n,) is 0 for none, else the place of a label, counted from 1."""
    extra = Facet(PINNED, ("none", *labels), pinned=True)
    key = design.cell * (len(labels) + 1) + term
    _, first, cell = np.unique(key, return_index=True, return_inverse=True)
    old = design.cell[first]
    elements = np.column_stack([design.elements[old], design.element_count + term[first]])
    count, free = (
        design.element_count,
        sum(len(facet.labels) - 1 for facet in design.facets),
    )
    contrast = block_diag(design.contrast[:count, :free], extra.contrast, design.contrast[count:, free:])
    return replace(
        design,
        facets=(*design.facets, extra),
        cell=cell,
        elements=elements,
        group=design.group[old],
        contrast=contrast,
    )


def refit(design: RaschDesign, term: np.ndarray, labels: tuple[str, ...]) -> tuple[np.ndarray, np.ndarray, JointFit]:
    """Extra severities with errors (labels,) when fitted together with everything else (joint likelihood)."""
    larger = with_terms(design, term, labels)
    found = joint_fit(larger)
    own = larger.block(len(design.facets))
    variance = np.diag(found.covariance)[own][1:]
    if not (variance > 0).all():
        raise np.linalg.LinAlgError("the terms can't be told apart")
    return found.full[own][1:], np.sqrt(variance), found
