"""What a planned exam would be worth, from variance components (Brennan 2001, ch. 4; Brennan & Kane 1977)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from assessments.measurement.variance_design import VarianceDesign

Plan = Mapping[int, float]


@dataclass(frozen=True, slots=True)
class Decision:
    """The coefficients of one plan; variances in squared marks, errors in marks."""

    universe: float
    relative_error: float
    absolute_error: float
    g_coefficient: float
    phi: float
    phi_cut: float | None
    raw_phi_cut: float | None

    @property
    def sem_absolute(self) -> float:
        return self.absolute_error**0.5

    @property
    def sem_relative(self) -> float:
        return self.relative_error**0.5


def planned_shares(design: VarianceDesign, numbers: Plan) -> np.ndarray:
    """What is left of each component in the mean over the plan (effects,): 1 / (product of its numbers).

    `numbers` gives each facet's effective number: n for equal loads, n_+^2 / sum n_h^2 for unequal ones.
    """
    return np.array([1 / np.prod([numbers[facet] for facet in design.averaged(effect)]) for effect in design.effects])


def observed_shares(design: VarianceDesign) -> np.ndarray:
    """The same for the design as it was: the mean over candidates of sum n_h^2 / n_+^2."""
    first = design.object_effect.codes
    owned = np.bincount(first).astype(float)
    return np.array([_share(effect.codes, effect.levels, first, owned) for effect in design.effects])


def _share(codes: np.ndarray, levels: int, first: np.ndarray, owned: np.ndarray) -> float:
    keys, counts = np.unique(first.astype(np.int64) * levels + codes, return_counts=True)
    squares = np.bincount(keys // levels, counts.astype(float) ** 2, len(owned))
    return float(np.mean(squares / owned**2))


def decision(
    design: VarianceDesign,
    components: np.ndarray,
    shares: np.ndarray,
    fixed: Sequence[int] = (),
    cut: float | None = None,
) -> Decision:
    """G coefficient, Phi, Phi at the cut, and both errors; a negative component counts as 0.

    The squared distance of mean and cut, less its own error, counts as 0 when negative; `raw_phi_cut` keeps it.
    A facet in `fixed` is the whole set: what the object does on it belongs to the object itself.
    """
    parts = np.maximum(components, 0) * shares
    random = np.array([bool(design.averaged(effect) - set(fixed)) for effect in design.effects])
    own = np.array([effect.of_object for effect in design.effects])
    universe = parts[own & ~random].sum()
    relative, absolute = parts[own & random].sum(), parts[random].sum()
    g, phi = (_ratio(universe, universe + error) for error in (relative, absolute))
    at_cut = raw_at_cut = None
    if cut is not None:
        of_mean = (universe + relative) / design.objects + (absolute - relative)
        distance = (design.scores.mean() - cut) ** 2 - of_mean
        raw_at_cut = _ratio(universe + distance, universe + distance + absolute)
        at_cut = _ratio(universe + max(0.0, distance), universe + max(0.0, distance) + absolute)
    return Decision(float(universe), float(relative), float(absolute), g, phi, at_cut, raw_at_cut)


def _ratio(part: float, whole: float) -> float:
    return float(part / whole) if whole > 0 else float("nan")
