"""Which elements can be compared at all: the null space of the design once candidates are eliminated.

A graph of shared elements is the wrong test: a criterion that all examiners use joins nothing by itself
(Weeks & Williams 1964, Technometrics 6: 319-324; Eccleston & Hedayat 1974, Annals of Statistics 2: 1238-1255).
"""

from dataclasses import dataclass

import numpy as np

from assessments.measurement.rasch.design import RaschDesign

SMALL = 1e-9


@dataclass(frozen=True, slots=True)
class Connection:
    """`islands[facet]` lists elements that can be compared with one another; one island a facet when connected."""

    extra_dimensions: int
    islands: dict[str, list[list[str]]]

    @property
    def connected(self) -> bool:
        return self.extra_dimensions == 0


def connection(design: RaschDesign) -> Connection:
    """The rank test; run before any fit."""
    count = design.element_count
    own = design.elements[design.cell]
    people = len(design.candidates)
    among = np.zeros((count, count))
    met = np.zeros((people, count))
    used = np.bincount(design.cell, minlength=len(design.elements)).astype(float)
    for one in range(own.shape[1]):
        met += np.bincount(design.candidate * count + own[:, one], minlength=people * count).reshape(people, count)
        for other in range(own.shape[1]):
            key = design.elements[:, one] * count + design.elements[:, other]
            among += np.bincount(key, used, count * count).reshape(count, count)
    ratings = np.bincount(design.candidate, minlength=people)
    seen = ratings > 0
    among -= met[seen].T @ (met[seen] / ratings[seen, None])
    scale = 1 / np.sqrt(np.maximum(met.sum(axis=0), 1))
    values, vectors = np.linalg.eigh(scale[:, None] * among * scale)
    null = scale[:, None] * vectors[:, values < SMALL]
    extra = null.shape[1] - len(design.facets)
    islands = {facet.name: _alike(null[design.block(place)], facet.labels) for place, facet in enumerate(design.facets)}
    return Connection(extra, islands)


def _alike(rows: np.ndarray, labels: tuple[str, ...]) -> list[list[str]]:
    scale = max(np.abs(rows).max(), 1e-300)
    leaders: list[np.ndarray] = []
    islands: list[list[str]] = []
    for row, label in zip(rows, labels, strict=True):
        for leader, island in zip(leaders, islands, strict=True):
            if np.abs(row - leader).max() < 1e-6 * scale:
                island.append(label)
                break
        else:
            leaders.append(row)
            islands.append([label])
    return islands
