"""Borderline group: the cut is the middle score of the candidates whose overall grade is borderline.

Livingston SA, Zieky MJ (1982) Passing Scores, Educational Testing Service.
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.statistic import NOT_DEFINED, Statistic, measured, undefined

GROUP_FOR_MEAN = 50
DRAWS = 2000


@dataclass(frozen=True, slots=True)
class GroupCut:
    cut: Statistic
    se: float
    mean: float
    median: float
    se_mean: float


def borderline_group(scores: np.ndarray, borderline: np.ndarray, chance: np.random.Generator) -> GroupCut:
    """The median score of the borderline candidates (the mean above 50 of them), resampling them for its error."""
    group = scores[borderline]
    n = len(group)
    if n < 2:
        return GroupCut(undefined(n, NOT_DEFINED), np.nan, np.nan, np.nan, np.nan)
    middle = np.mean if n > GROUP_FOR_MEAN else np.median
    drawn = middle(group[chance.integers(0, n, (DRAWS, n))], axis=1)
    low, high = np.quantile(drawn, (0.025, 0.975))
    cut = measured(float(middle(group)), low, high, n)
    se_mean = group.std(ddof=1) / np.sqrt(n)
    return GroupCut(cut, float(drawn.std(ddof=1)), float(group.mean()), float(np.median(group)), float(se_mean))
