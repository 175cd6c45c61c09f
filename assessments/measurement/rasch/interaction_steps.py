"""Examiner-by-element terms taken in one after another, the clearest first.

A strong term leaves its mirror image on everybody else who met the element: screened at once, all of them stand out.
Taken in one by one (Efroymson 1960, forward selection) the mirror images go. Each step is the score test with false
discoveries held to 5 per cent over all pairs (Benjamini & Hochberg 1995); all that were taken in are fitted together.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.interactions import LEAST_LOGITS, false_discovery, refit, with_terms
from assessments.measurement.rasch.joint import JointFit
from assessments.measurement.rasch.score_test import one_step

MOST_TERMS = 8


@dataclass(frozen=True, slots=True)
class Term:
    """Extra severity in logits of the examiner with code `one` on the element with code `other`, over `ratings`."""

    one: int
    other: int
    estimate: float
    error: float
    ratings: int


def clear_terms(
    design: RaschDesign, joint: JointFit, codes: tuple[np.ndarray, np.ndarray], least: float, deff: float = 1.0
) -> list[Term]:
    """The terms that stand out beside each other, by the two codes (n,) of each rating.

    Pairs below `least` ratings never do. Errors are widened by the root of `deff`, the design effect of what the ratings
    of a pair share.
    """
    one, other = codes
    width = int(other.max()) + 1
    keys, pair = np.unique(one * width + other, return_inverse=True)
    ratings, chosen = np.bincount(pair), []
    grown, fit, found = design, joint, []
    while len(chosen) < MOST_TERMS:
        step, error = one_step(grown, fit, pair, len(keys), np.ones(len(pair)))
        strength = np.abs(np.nan_to_num(step / error)) / np.sqrt(deff)
        out = (false_discovery(2 * ndtr(-strength)) <= 0.05) & (np.abs(np.nan_to_num(step)) >= LEAST_LOGITS)
        out &= (ratings >= least) & _room(keys // width, keys % width, chosen)
        if not out.any():
            break
        place = np.zeros(len(keys), np.int64)
        wanted = [*chosen, int(np.argmax(np.where(out, strength, -1.0)))]
        place[wanted] = np.arange(1, len(wanted) + 1)
        labels = tuple(str(key) for key in keys[wanted])
        try:
            estimates, errors, fit = refit(design, place[pair], labels)
        except np.linalg.LinAlgError:
            break
        grown, chosen = with_terms(design, place[pair], labels), wanted
        found = list(zip(chosen, estimates, errors, strict=True))
    return [
        Term(int(keys[at] // width), int(keys[at] % width), float(value), float(error * deff**0.5), int(ratings[at]))
        for at, value, error in found
    ]


def _room(one: np.ndarray, other: np.ndarray, chosen: list[int]) -> np.ndarray:
    """Pairs that may still be taken in: not taken yet, and never all of an examiner or of an element."""
    free = np.ones(len(one), bool)
    free[chosen] = False
    for codes in (one, other):
        met, taken = np.bincount(codes), np.bincount(codes[chosen], minlength=codes.max() + 1)
        free &= met[codes] - taken[codes] > 1
    return free
