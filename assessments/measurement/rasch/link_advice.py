"""The cheapest way to mend a weak link: which examiner should mark which candidate's lessons as well.

One more set of ratings adds w a a' to the information on severities, a being the examiner less the mix of examiners
that the candidate has already had, so the error of a contrast c falls as Sherman & Morrison (1950, Ann Math Stat 21:
124-127) say: c'Cc - w (c'Ca)^2 / (1 + w a'Ca). Steps and other facets are taken as known.
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.design import RaschDesign
from assessments.measurement.rasch.fit import Expected


@dataclass(frozen=True, slots=True)
class LinkAdvice:
    """Who should mark whom, and the error of the weakest contrast before and after (logits)."""

    examiner: str
    candidate: str
    error_now: float
    error_after: float


def cheapest_link(
    design: RaschDesign, found: Expected, covariance: np.ndarray, contrast: np.ndarray, judge: int
) -> LinkAdvice | None:
    """The examiner and candidate, not yet met, whose meeting helps most; None where all have met or nothing helps.

    `covariance` (examiners, examiners) of severities, `contrast` (examiners,) between the two sides.
    """
    block = design.block(judge)
    judges, people = block.stop - block.start, len(design.candidates)
    who = design.candidate[found.rows]
    key = who * judges + design.elements[design.cell[found.rows], judge] - block.start
    met = np.bincount(key, found.moments.variance, people * judges).reshape(people, judges)
    number = np.bincount(key, minlength=people * judges).reshape(people, judges)
    total = met.sum(axis=1, keepdims=True)
    share = met / np.maximum(total, 1e-12)
    each = total[:, 0] / np.maximum((number > 0).sum(axis=1), 1)
    weight = each * total[:, 0] / np.maximum(total[:, 0] + each, 1e-12)
    toward = covariance @ contrast
    now = float(contrast @ toward)
    along = toward - (share @ toward)[:, None]
    mixed = share @ covariance
    spread = np.diag(covariance) - 2 * mixed + np.sum(mixed * share, axis=1)[:, None]
    gain = weight[:, None] * along**2 / (1 + weight[:, None] * spread)
    gain[(number > 0) | (total <= 0)] = 0
    person, examiner = np.unravel_index(np.argmax(gain), gain.shape)
    best = float(gain[person, examiner])
    if best <= 0:
        return None
    labels = design.facets[judge].labels
    after = float(np.sqrt(max(now - best, 0)))
    return LinkAdvice(labels[examiner], design.candidates[person], float(np.sqrt(now)), after)
