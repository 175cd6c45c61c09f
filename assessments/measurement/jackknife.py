"""Errors by leaving one out (Quenouille 1956, Biometrika 43: 353-360; Tukey 1958; Efron & Tibshirani 1993, ch. 11)."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from scipy.special import stdtrit

from assessments.measurement.statistic import Statistic, measured, reason, undefined
from assessments.measurement.variance import analogous_components
from assessments.measurement.variance_design import Effect, VarianceDesign
from curriculum.faults import N_, RefusedError

MOST_GROUPS = 50
MOST_SCORES = 20_000
FEWEST_LEVELS = 3
TOO_MANY = reason("too-many", N_("there are too many scores to leave each candidate out; read the other interval"))
TOO_FEW = reason("too-few-to-leave-out", N_("leaving one out needs 3 candidates and 3 examiners at least"))
NO_ROOM = reason("no-room", N_("one set with a candidate or an examiner left out does not tell every component"))


def jackknife_error(without: np.ndarray) -> float:
    """Standard error from `without` (n,): the statistic with each one (or each of n equal groups) left out."""
    n = len(without)
    return float(np.sqrt((n - 1) / n * np.sum((without - without.mean()) ** 2)))


def phi_jackknife(
    design: VarianceDesign,
    judge: int,
    estimate: float,
    phi: Callable[[VarianceDesign, np.ndarray], float],
    chance: np.random.Generator,
) -> Statistic:
    """A 95 % interval of Phi that assumes no distribution: each candidate and each examiner left out in turn.

    `phi` takes a design and its components and gives Phi of the plan, which stays the same whoever is left out. Both
    errors are added (Brennan 2001, 6.4), on the scale of log(Phi / (1 - Phi)), where Phi is nearer to normal; t with
    Satterthwaite's degrees of freedom. More than 50 candidates are left out in 50 groups drawn by chance.
    """
    if len(design.scores) > MOST_SCORES:
        return undefined(len(design.scores), TOO_MANY)
    judges = next((effect for effect in design.effects if effect.facets and judge in effect.factors), None)
    if judges is None or min(judges.levels, design.objects) < FEWEST_LEVELS:
        return undefined(len(design.scores), TOO_FEW)
    try:
        errors = [_error(design, effect, phi, chance) for effect in (design.object_effect, judges)]
    except RefusedError:
        return undefined(len(design.scores), NO_ROOM)
    squares = np.array([error**2 for error, _ in errors])
    freedom = squares.sum() ** 2 / np.sum(squares**2 / np.array([count - 1 for _, count in errors]))
    if not (np.isfinite(freedom) and 0 < estimate < 1):
        return measured(estimate, None, None, len(design.scores))
    reach = stdtrit(freedom, 0.975) * np.sqrt(squares.sum())
    low, high = (1 / (1 + np.exp(-(_logit(estimate) + side * reach))) for side in (-1, 1))
    return measured(estimate, low, high, len(design.scores))


def _error(design: VarianceDesign, effect: Effect, phi, chance: np.random.Generator) -> tuple[float, int]:
    groups = min(effect.levels, MOST_GROUPS)
    group = chance.permutation(effect.levels) % groups
    values = np.empty(groups)
    for left in range(groups):
        smaller = with_rows(design, group[effect.codes] != left)
        values[left] = _logit(phi(smaller, analogous_components(smaller)))
    return jackknife_error(values), groups


def _logit(share: float) -> float:
    inside = min(max(share, 1e-3), 1 - 1e-3)
    return float(np.log(inside / (1 - inside)))


def with_rows(design: VarianceDesign, kept: np.ndarray) -> VarianceDesign:
    """The same design with some of its scores (n,) only; levels that are gone are not counted."""
    effects = []
    for effect in design.effects:
        codes = np.unique(effect.codes[kept], return_inverse=True)[1]
        effects.append(replace(effect, codes=codes, levels=int(codes.max()) + 1))
    return replace(design, effects=tuple(effects), scores=design.scores[kept], balanced=False)
