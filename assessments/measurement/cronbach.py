"""Cronbach's alpha (KR-20 when parts are marked 0 or 1) and the standard error of a total score.

Cronbach LJ (1951) Psychometrika 16:297-334; interval: Feldt LS (1965) Psychometrika 30:357-370.
"""

import numpy as np
from scipy.special import chdtri, fdtri

from assessments.measurement.statistic import NO_VARIATION, Statistic, measured, reason, undefined
from curriculum.faults import N_

ONE_PART = reason("one-part", N_("needs two parts or more"))
NOBODY_WHOLE = reason("nobody-whole", N_("needs two candidates or more with a mark in every part"))


def cronbach(table: np.ndarray) -> tuple[Statistic, Statistic]:
    """Alpha and the standard error of measurement, from `table` (candidates, items), complete."""
    n, k = table.shape
    why = ONE_PART if k < 2 else NOBODY_WHOLE if n < 2 else None
    if why:
        return undefined(n, why), undefined(n, why)
    total = table.sum(axis=1).var(ddof=1)
    if total <= 0:
        return undefined(n, NO_VARIATION), undefined(n, NO_VARIATION)
    alpha = k / (k - 1) * (1 - table.var(axis=0, ddof=1).sum() / total)
    df1, df2 = n - 1, (n - 1) * (k - 1)
    low, high = 1 - (1 - alpha) * fdtri(df1, df2, 0.975), 1 - (1 - alpha) * fdtri(df1, df2, 0.025)
    variance = max(0.0, total * (1 - alpha))
    ends = (np.sqrt(variance * df2 / chdtri(df2, tail)) for tail in (0.025, 0.975))
    return measured(alpha, low, high, n), measured(np.sqrt(variance), *ends, n)
