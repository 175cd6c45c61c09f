"""Intraclass correlation, six forms, from a complete table or one with gaps.

Shrout PE, Fleiss JL (1979) Psychol Bull 86:420-428; forms and intervals: McGraw KO, Wong SP (1996) Psychol Methods
1:30-46; gaps: analogous mean squares (Henderson CR 1953, Biometrics 9:226-252, method 1), never dropping a unit.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import fdtri

from assessments.measurement.ratings import Ratings
from assessments.measurement.statistic import NO_VARIATION, Statistic, measured, reason, undefined
from curriculum.faults import N_

FORMS = ("icc_1_1", "icc_a_1", "icc_c_1", "icc_1_k", "icc_a_k", "icc_c_k")
GAPS = reason("gaps", N_("not every examiner rated every unit: from variance components, without an interval"))


@dataclass(frozen=True, slots=True)
class MeanSquares:
    """Of a complete table: between units, between examiners, residual, within units."""

    n: int
    k: int
    units: float
    examiners: float
    residual: float
    within: float


def mean_squares(table: np.ndarray) -> MeanSquares:
    """Mean squares of `table` (units, examiners), complete."""
    n, k = table.shape
    table = table - table.mean()
    rows, columns = table.mean(axis=1), table.mean(axis=0)
    between, across = k * (rows @ rows), n * (columns @ columns)
    within = np.einsum("ij,ij->", table, table) - between
    residual = max(0.0, within - across)
    return MeanSquares(
        n, k, between / (n - 1), across / (k - 1), residual / ((n - 1) * (k - 1)), within / (n * (k - 1))
    )


def intraclass(ratings: Ratings, values: np.ndarray) -> dict[str, Statistic]:
    """The six forms by their keys; `values` is a number for each rating."""
    n, k = ratings.units, len(ratings.examiners)
    if n < 2 or k < 2 or ratings.units_with_two < 2:
        return {form: undefined(n, NO_VARIATION) for form in FORMS}
    if ratings.complete:
        return complete_forms(mean_squares(ratings.matrix(values)))
    return _forms_with_gaps(ratings, values)


def complete_forms(m: MeanSquares) -> dict[str, Statistic]:
    """The six forms with 95 % intervals; undefined when units do not differ and ratings neither."""
    if m.units <= 1e-12 and m.within <= 1e-12:
        return {form: undefined(m.n, NO_VARIATION) for form in FORMS}
    n, k = m.n, m.k
    one = (m.units - m.within) / (m.units + (k - 1) * m.within)
    same = (m.units - m.residual) / (m.units + (k - 1) * m.residual + k / n * (m.examiners - m.residual))
    ranked = (m.units - m.residual) / (m.units + (k - 1) * m.residual)
    singles = {
        "1": (one, *_from_f(m.units, m.within, n - 1, n * (k - 1), k)),
        "a": (same, *_agreement_limits(m, same)),
        "c": (ranked, *_from_f(m.units, m.residual, n - 1, (n - 1) * (k - 1), k)),
    }
    means = {
        "1": _ratio(m.units - m.within, m.units),
        "a": _ratio(m.units - m.residual, m.units + (m.examiners - m.residual) / n),
        "c": _ratio(m.units - m.residual, m.units),
    }
    found = {f"icc_{form}_1": measured(*numbers, n) for form, numbers in singles.items()}
    for form, mean in means.items():
        low, high = (_stepped_up(limit, k) for limit in singles[form][1:])
        found[f"icc_{form}_k"] = measured(mean, low, high, n)
    return {form: found[form] for form in FORMS}


def _ratio(above: float, below: float) -> float:
    return above / below if below > 0 else np.nan


def _stepped_up(single: float, k: int) -> float:
    return k * single / (1 + (k - 1) * single)


def _from_f(above: float, below: float, df1: float, df2: float, k: int) -> tuple[float, float]:
    if below <= 0:
        return 1.0, 1.0
    low = above / below / fdtri(df1, df2, 0.975)
    high = above / below * fdtri(df2, df1, 0.975)
    return (low - 1) / (low + k - 1), (high - 1) / (high + k - 1)


def _agreement_limits(m: MeanSquares, r: float) -> tuple[float, float]:
    n, k = m.n, m.k
    if r >= 1:
        return 1.0, 1.0
    a, b = k * r / (n * (1 - r)), 1 + k * r * (n - 1) / (n * (1 - r))
    parts = (a * m.examiners) ** 2 / (k - 1) + (b * m.residual) ** 2 / ((n - 1) * (k - 1))
    if parts <= 0:
        return np.nan, np.nan
    v = (a * m.examiners + b * m.residual) ** 2 / parts
    f1, f2 = fdtri(n - 1, v, 0.975), fdtri(v, n - 1, 0.975)
    rest = k * m.examiners + (k * n - k - n) * m.residual
    low = n * (m.units - f1 * m.residual) / (f1 * rest + n * m.units)
    high = n * (f2 * m.units - m.residual) / (rest + n * f2 * m.units)
    return low, high


def _forms_with_gaps(ratings: Ratings, values: np.ndarray) -> dict[str, Statistic]:
    per_unit = ratings.ratings_a_unit
    k = np.count_nonzero(per_unit) / (1 / per_unit[per_unit > 0]).sum()
    unit, examiner, rest = _components(ratings, values)
    alone, spread = _one_way(ratings, values)
    errors = {"1": (alone, spread), "a": (unit, examiner + rest), "c": (unit, rest)}
    singles = {f"icc_{form}_1": _ratio(true, true + error) for form, (true, error) in errors.items()}
    means = {f"icc_{form}_k": _ratio(true, true + error / k) for form, (true, error) in errors.items()}
    found = {**singles, **means}
    return {form: measured(found[form], None, None, ratings.units).flagged(GAPS) for form in FORMS}


def _components(ratings: Ratings, values: np.ndarray) -> tuple[float, float, float]:
    """Variance of units, examiners and rest: sums of squares set to what they are expected to be."""
    x, n = values - values.mean(), len(values)
    n_u, n_e = ratings.ratings_a_unit, np.bincount(ratings.examiner, minlength=len(ratings.examiners))
    sums_u = np.bincount(ratings.unit, x, minlength=ratings.units)
    sums_e = np.bincount(ratings.examiner, x, minlength=len(n_e))
    seen_u, seen_e = n_u > 0, n_e > 0
    t_u = (sums_u[seen_u] ** 2 / n_u[seen_u]).sum()
    t_e = (sums_e[seen_e] ** 2 / n_e[seen_e]).sum()
    levels_u, levels_e = seen_u.sum(), seen_e.sum()
    u_mean, e_mean = (n_u**2).sum() / n, (n_e**2).sum() / n
    expected = np.array(
        [
            [n - u_mean, levels_u - e_mean, levels_u - 1],
            [levels_e - u_mean, n - e_mean, levels_e - 1],
            [n - u_mean, n - e_mean, n - 1],
        ],
        float,
    )
    unit, examiner, rest = np.linalg.lstsq(expected, np.array([t_u, t_e, x @ x]), rcond=None)[0]
    return unit, examiner, rest


def _one_way(ratings: Ratings, values: np.ndarray) -> tuple[float, float]:
    x, n = values - values.mean(), len(values)
    n_u = ratings.ratings_a_unit
    seen = n_u > 0
    sums = np.bincount(ratings.unit, x, minlength=ratings.units)
    between = (sums[seen] ** 2 / n_u[seen]).sum()
    levels = seen.sum()
    within = (x @ x - between) / (n - levels)
    size = (n - (n_u**2).sum() / n) / (levels - 1)
    return (between / (levels - 1) - within) / size, within
