"""Error of a compromise cut: judges and candidates drawn anew together."""

from collections.abc import Callable

import numpy as np

from assessments.measurement.statistic import Statistic, measured

DRAWS = 1000
FromBoth = Callable[[np.ndarray, np.ndarray], float | None]


def with_error(
    cut: float, scores: np.ndarray, judges: np.ndarray, found: FromBoth, chance: np.random.Generator
) -> tuple[Statistic, float]:
    """The cut with a percentile interval, and its standard error; draws without a solution are left out."""
    drawn = []
    for _ in range(DRAWS):
        some = chance.integers(0, len(judges), len(judges))
        others = chance.integers(0, len(scores), len(scores))
        drawn.append(found(scores[others], judges[some]))
    cuts = np.array([value for value in drawn if value is not None])
    if len(cuts) < DRAWS // 2:
        return measured(cut, None, None, len(scores)), np.nan
    low, high = np.quantile(cuts, (0.025, 0.975))
    return measured(cut, low, high, len(scores)), float(cuts.std(ddof=1))
