"""How far variance components and what follows from them can be trusted.

Satterthwaite (1946, Biometrics Bulletin 2: 110-114) for balanced data; parametric bootstrap from the fitted
components (Brennan 2001, 6.2-6.3) for coefficients and for unbalanced data; jackknife over objects or examiners.
"""

from collections.abc import Callable

import numpy as np
from scipy.special import chdtri

from assessments.measurement.variance import coefficients, sums_of_squares
from assessments.measurement.variance_design import VarianceDesign

DRAWS = 200
MOST_WORK = 4_000_000
Interval = tuple[float, float]


def satterthwaite(design: VarianceDesign) -> list[Interval]:
    """95 % intervals of the components of a balanced design, each a sum of mean squares c MS with df nu."""
    total = sums_of_squares(design, design.scores)
    levels = np.array([effect.levels for effect in design.effects], float)
    above = _lattice(design)
    freedom = above @ (levels - 1)
    mean_square = above @ total / freedom
    weights = np.linalg.solve(coefficients(design), np.linalg.inv(above) @ np.diag(freedom))
    return [_chi_square(weight * mean_square, freedom) for weight in weights]


def _lattice(design: VarianceDesign) -> np.ndarray:
    """Turns uncorrected sums T - T_mean into sums of squares: SS_a = T_a minus the SS of every effect within a."""
    size = len(design.effects)
    table = np.zeros((size, size))
    for place, effect in enumerate(design.effects):
        table[place, place] = 1
        for below, other in enumerate(design.effects[:place]):
            if other.factors < effect.factors:
                table[place] -= table[below]
    return table


def _chi_square(parts: np.ndarray, freedom: np.ndarray) -> Interval:
    estimate = parts.sum()
    if estimate <= 0:
        return float("nan"), float("nan")
    nu = estimate**2 / np.sum(parts**2 / freedom)
    far = chdtri(nu, 0.975)
    return float(nu * estimate / chdtri(nu, 0.025)), float(nu * estimate / far) if far > 0 else float("nan")


def bootstrap(
    design: VarianceDesign,
    components: np.ndarray,
    figures: Callable[[np.ndarray, np.ndarray], np.ndarray],
    chance: np.random.Generator,
) -> tuple[np.ndarray, int]:
    """95 % limits (2, figures) and the number of draws.

    Normal scores are drawn from the components for the design as it is; `figures` takes the components and the
    scores of a draw. Fewer than 200 draws are made for more than 20 000 scores.
    """
    draws = int(np.clip(MOST_WORK / len(design.scores), 20, DRAWS))
    inverse = np.linalg.inv(coefficients(design))
    spread = np.sqrt(np.maximum(components, 0))
    found = []
    for _ in range(draws):
        scores = np.full(len(design.scores), design.scores.mean())
        for effect, size in zip(design.effects, spread, strict=True):
            if size > 0:
                scores += size * chance.standard_normal(effect.levels)[effect.codes]
        found.append(figures(inverse @ sums_of_squares(design, scores), scores))
    found = np.array(found)
    known = ~np.isnan(found).all(axis=0)
    ends = np.full((2, found.shape[1]), np.nan)
    ends[:, known] = np.nanquantile(found[:, known], (0.025, 0.975), axis=0)
    return ends, draws
