"""Variance components from sums of squares: by mean squares when balanced, else analogous to them.

Henderson (1953, Biometrics 9: 226-252, method 1); Brennan (2001, Generalizability Theory, 7.1.1 "analogous-ANOVA").
For balanced data both are the same numbers, so one solution serves: E[T_a] is linear in the components.
"""

import numpy as np

from assessments.measurement.variance_design import Effect, VarianceDesign
from curriculum.faults import N_, Fault, RefusedError


def analogous_components(design: VarianceDesign) -> np.ndarray:
    """Components (effects,), unbiased, possibly negative; `RefusedError` when the data do not determine them."""
    return np.linalg.solve(coefficients(design), sums_of_squares(design, design.scores))


def sums_of_squares(design: VarianceDesign, scores: np.ndarray) -> np.ndarray:
    """T_a = sum over levels of (total of the level)^2 / n_a, about the grand mean; (effects,)."""
    away = scores - scores.mean()
    return np.array([_about_the_mean(effect, away) for effect in design.effects])


def _about_the_mean(effect: Effect, away: np.ndarray) -> float:
    if effect.levels == len(away):
        return float(away @ away)
    totals = np.bincount(effect.codes, away)
    return float(totals @ (totals / np.bincount(effect.codes)))


def coefficients(design: VarianceDesign) -> np.ndarray:
    """E[T_a - T_mean] = sum_b k_ab s2_b: k (effects, effects) with k_ab = sum n_ab^2 / n_a - sum n_b^2 / n."""
    n = len(design.scores)
    counts = [np.bincount(effect.codes) for effect in design.effects]
    mean = np.array([float(count @ (count / n)) for count in counts])
    table = np.array([[_shared(design, a, b, counts) for b in design.effects] for a in design.effects]) - mean
    if np.linalg.cond(table) > 1e12:
        sentence = N_("these data do not determine every component: {effects}")
        names = ", ".join(effect.name for effect in design.effects)
        raise RefusedError([Fault("undetermined", sentence, {"effects": names})])
    return table


def _shared(design: VarianceDesign, a: Effect, b: Effect, counts: list[np.ndarray]) -> float:
    n = len(design.scores)
    if b.factors <= a.factors:
        return float(n)
    if b is design.effects[-1]:
        return float(a.levels)
    both = design.effect(a.factors | b.factors)
    own = counts[design.effects.index(a)]
    if both is design.effects[-1]:
        key = a.codes.astype(np.int64) * b.levels + b.codes
        _, first, together = np.unique(key, return_index=True, return_counts=True)
    else:
        together = counts[design.effects.index(both)]
        first = np.empty(both.levels, dtype=np.int64)
        first[both.codes] = np.arange(n)
    return float(np.sum(together.astype(float) ** 2 / own[a.codes[first]]))
