"""How alike two examiners of one exam grade its blocks, with intervals by drawing whole exams.

Krippendorff K (2011) Computing Krippendorff's Alpha-Reliability; the blocks of one exam are no independent units, so
that exams are drawn (Field CA, Welsh AH 2007, J R Stat Soc B 69: 369-390, the cluster bootstrap).
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.limits import Limits
from assessments.measurement.resampling import unit_interval
from assessments.measurement.statistic import NO_VARIATION, Statistic, measured, undefined
from assessments.season.gathered import Gathered


@dataclass(frozen=True, slots=True)
class GradeAgreement:
    """Share of pairs of grades that are the same, at most one apart, and Krippendorff's ordinal alpha.

    `blocks` is how many blocks were graded by two examiners or more; each statistic's `n` counts exams.
    """

    same: Statistic
    near: Statistic
    alpha: Statistic
    blocks: int


def grade_agreement(gathered: Gathered, grades: int, chance: np.random.Generator, limits: Limits) -> GradeAgreement:
    """Agreement on the global grades, 0 to `grades` - 1; held back by the number of exams."""
    counts, exam = grade_counts(gathered, grades)
    paired = counts.sum(axis=1) >= 2
    counts, exam = counts[paired], np.unique(exam[paired], return_inverse=True)[1]
    exams = int(exam.max(initial=-1)) + 1
    if not exams:
        nothing = limits.many.applied(measured(0.0, None, None, 0), units_with_two_ratings=0)
        return GradeAgreement(nothing, nothing, nothing, 0)
    size = counts.sum(axis=1)
    together = np.einsum("uc,uk->uck", counts, counts).astype(float)
    together[:, np.arange(grades), np.arange(grades)] -= counts
    away = np.abs(np.arange(grades)[:, None] - np.arange(grades))
    pairs = size * (size - 1)
    found = []
    for most in (0, 1):
        share = (together * (away <= most)).sum(axis=(1, 2)) / pairs
        found.append(_shared(np.column_stack([share, np.ones_like(share)]), exam, exams, _ratio, chance))
    coincidence = (together / (size - 1)[:, None, None]).reshape(len(counts), -1)
    found.append(_shared(coincidence, exam, exams, _ordinal_alpha, chance))
    shown = [limits.many.applied(one, units_with_two_ratings=exams) for one in found]
    return GradeAgreement(*shown, len(counts))


def grade_counts(gathered: Gathered, grades: int) -> tuple[np.ndarray, np.ndarray]:
    """(blocks graded, grades): how many examiners gave each; and each block's exam."""
    width = max(len(gathered.blocks), 1)
    key, unit = np.unique(gathered.grade[:, 0] * width + gathered.grade[:, 2], return_inverse=True)
    counts = np.zeros((len(key), grades), int)
    np.add.at(counts, (unit, gathered.grade[:, 3]), 1)
    return counts, key // width


def with_partners(gathered: Gathered, examiner: int) -> tuple[int, int, int]:
    """Of one examiner: pairs of grades with partners on one block, how many the same, and at most one apart."""
    own = {(exam, block): grade for exam, who, block, grade in gathered.grade.tolist() if who == examiner}
    away = [
        abs(own[exam, block] - grade)
        for exam, who, block, grade in gathered.grade.tolist()
        if who != examiner and (exam, block) in own
    ]
    return len(away), sum(one == 0 for one in away), sum(one <= 1 for one in away)


def _shared(features: np.ndarray, exam: np.ndarray, exams: int, from_sums, chance) -> Statistic:  # noqa: ANN001
    sums = np.zeros((exams, features.shape[1]))
    np.add.at(sums, exam, features)
    estimate = float(from_sums(sums.sum(axis=0, keepdims=True))[0])
    if not np.isfinite(estimate):
        return undefined(exams, NO_VARIATION)
    ones = np.ones(exams, int)
    low, high = unit_interval(lambda weights: from_sums(weights @ sums), ones, estimate, chance)
    return measured(estimate, low, high, exams)


def _ratio(sums: np.ndarray) -> np.ndarray:
    return sums[:, 0] / sums[:, 1]


def _ordinal_alpha(sums: np.ndarray) -> np.ndarray:
    """Alpha from summed coincidences (draws, q * q)."""
    q = round(sums.shape[1] ** 0.5)
    pairs = sums.reshape(-1, q, q)
    n_c = pairs.sum(axis=2)
    middle = np.cumsum(n_c, axis=1) - n_c / 2
    distance = (middle[:, :, None] - middle[:, None, :]) ** 2
    expected = np.einsum("bck,bc,bk->b", distance, n_c, n_c)
    with np.errstate(divide="ignore", invalid="ignore"):
        disagreement = (n_c.sum(axis=1) - 1) * (pairs * distance).sum(axis=(1, 2)) / expected
        return np.where(expected > 1e-12, 1 - disagreement, np.nan)
