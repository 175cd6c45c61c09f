"""The model's measures in marks: what a candidate is expected to get, and what an examiner's severity costs them."""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from assessments.measurement.rasch.design import RaschDesign
from assessments.practicals.specification import Practical

FARTHEST = 25.0


@dataclass(frozen=True, slots=True)
class MarkScale:
    """Cells of the practical (cells,): difficulty, steps (cells, K), values of categories (cells, K + 1), weight.

    `most` (cells,) is the number of steps of each cell's scale.
    """

    block: np.ndarray
    criterion: np.ndarray
    difficulty: np.ndarray
    steps: np.ndarray
    values: np.ndarray
    weight: np.ndarray
    most: np.ndarray

    def marks(self, ability: float, severity: float = 0.0, only: np.ndarray | None = None) -> float:
        """Expected total in per cent of a candidate marked by an examiner of this severity, over cells in `only`."""
        k = np.arange(self.values.shape[1])
        weight = k * (ability - severity) - self.steps
        chances = np.exp(weight - weight.max(axis=1, keepdims=True))
        chances /= chances.sum(axis=1, keepdims=True)
        share = (chances * self.values).sum(axis=1) / self.most
        counted = self.weight if only is None else self.weight * only
        return float(100 * counted @ share / counted.sum())

    def ability_at(self, marks: float, only: np.ndarray | None = None) -> float | None:
        """The measure of whom so many marks are expected of; None where nobody reaches them."""

        def away(ability: float) -> float:
            return self.marks(ability, only=only) - marks

        if not away(-FARTHEST) < 0 < away(FARTHEST):
            return None
        return float(brentq(away, -FARTHEST, FARTHEST, xtol=1e-8))

    def slope(self, ability: float) -> float:
        """Marks a unit of the model's own scale, at a measure."""
        return (self.marks(ability + 1e-4) - self.marks(ability - 1e-4)) / 2e-4


def mark_scale(practical: Practical, design: RaschDesign, full: np.ndarray) -> MarkScale:
    """The scale of a fit whose facets are `examiner`, then `block` and `criterion` where there are two or more.

    A block or criterion that was never rated is taken to be as hard as the average.
    """
    cells = practical.cells()
    places = {facet.name: place for place, facet in enumerate(design.facets)}
    difficulty = np.zeros(len(cells))
    for name, labels in (("block", [c.block for c in cells]), ("criterion", [c.criterion for c in cells])):
        if name in places:
            own = full[design.block(places[name])]
            known = dict(zip(design.facets[places[name]].labels, own, strict=True))
            difficulty += [known.get(label, 0.0) for label in labels]
    groups = [design.groups.index(c.criterion) if c.criterion in design.groups else 0 for c in cells]
    taus = design.step_table(full)[groups]
    psi = np.zeros((len(cells), design.steps + 1))
    psi[:, 1:] = np.cumsum(taus + difficulty[:, None], axis=1)
    psi[np.arange(design.steps + 1) > design.top[groups][:, None]] = np.inf
    return MarkScale(
        block=np.array([c.block for c in cells]),
        criterion=np.array([c.criterion for c in cells]),
        difficulty=difficulty,
        steps=psi,
        values=np.nan_to_num(design.values[groups]),
        weight=np.array([float(c.weight) for c in cells]),
        most=np.array([len(c.scale.levels()) - 1 for c in cells]),
    )
