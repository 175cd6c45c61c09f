"""Ratings as the model sees them: candidates, cells (one combination of facet elements), categories, constraints."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.linalg import block_diag

from curriculum.faults import N_, Fault, RefusedError

FEW_RATINGS = 20
# 0 to 100; more is no scale of steps any more.
MOST_CATEGORIES = 101


@dataclass(frozen=True, slots=True)
class Facet:
    """One facet: its name and its elements' labels. `pinned`: the first element is 0, else all sum to 0."""

    name: str
    labels: tuple[str, ...]
    pinned: bool = False

    @property
    def contrast(self) -> np.ndarray:
        """(elements, elements - 1): free parameters to elements."""
        free = np.eye(len(self.labels) - 1)
        return np.vstack([np.zeros((1, len(free))), free]) if self.pinned else np.vstack([free, -np.ones(len(free))])


@dataclass(frozen=True, slots=True)
class RaschDesign:
    """Ratings (n,) of candidates at cells. A full parameter vector holds all elements, then steps (groups, K).

    `category` counts from 0 within the step group; `values` (groups, K + 1) are the ratings as they were written,
    nan above a group's top. `elements` (cells, facets) point into the full vector; `contrast` (full, free);
    `offset` (cells,) is a known part of a cell's difficulty.
    """

    candidates: tuple[str, ...]
    facets: tuple[Facet, ...]
    candidate: np.ndarray
    cell: np.ndarray
    category: np.ndarray
    elements: np.ndarray
    group: np.ndarray
    top: np.ndarray
    values: np.ndarray
    groups: tuple[str, ...]
    contrast: np.ndarray
    skipped: tuple[str, ...] = ()
    offset: np.ndarray | None = None

    @property
    def steps(self) -> int:
        return self.values.shape[1] - 1

    @property
    def starts(self) -> list[int]:
        return list(np.cumsum([0, *(len(facet.labels) for facet in self.facets)]))

    @property
    def element_count(self) -> int:
        return self.starts[-1]

    def block(self, place: int) -> slice:
        """Where a facet's elements stand in the full vector."""
        return slice(self.starts[place], self.starts[place + 1])

    def location(self, full: np.ndarray) -> np.ndarray:
        """Difficulty of every cell (cells,)."""
        found = full[self.elements].sum(axis=1)
        return found if self.offset is None else found + self.offset

    def step_table(self, full: np.ndarray) -> np.ndarray:
        return full[self.element_count :].reshape(len(self.groups), self.steps)

    def raw(self) -> np.ndarray:
        """Sum of categories of every candidate."""
        return np.bincount(self.candidate, self.category, len(self.candidates))

    def highest(self) -> np.ndarray:
        return np.bincount(self.candidate, self.top[self.group[self.cell]], len(self.candidates))

    def observed(self, rows: np.ndarray | None = None) -> np.ndarray:
        """Sufficient statistics as the likelihood's gradient takes them: minus sums of categories (full,)."""
        cell = self.cell if rows is None else self.cell[rows]
        category = self.category if rows is None else self.category[rows]
        reached = np.zeros((len(self.elements), self.steps))
        for step in range(self.steps):
            reached[:, step] = np.bincount(cell, category > step, len(self.elements))
        return -self.gather(reached)

    def gather(self, reached: np.ndarray) -> np.ndarray:
        """Add up a cells x steps table over elements and over step groups (full,)."""
        of_elements = np.zeros(self.element_count)
        total = reached.sum(axis=1)
        for column in self.elements.T:
            of_elements += np.bincount(column, total, self.element_count)
        of_steps = np.zeros((len(self.groups), self.steps))
        np.add.at(of_steps, self.group, reached)
        return np.concatenate([of_elements, of_steps.ravel()])

    def prior(self) -> np.ndarray:
        """Precision of the weak prior N(0, 1) (full,): 1 for an element with fewer than 20 ratings or none but top or bottom."""
        counts = np.zeros(self.element_count)
        for column in self.elements.T:
            counts += np.bincount(column[self.cell], minlength=self.element_count)
        reach = self.top[self.group[self.cell]]
        weak = (counts < FEW_RATINGS).astype(float)
        for column in self.elements.T:
            got = np.bincount(column[self.cell], self.category, self.element_count)
            most = np.bincount(column[self.cell], reach, self.element_count)
            weak[(most > 0) & ((got == 0) | (got == most))] = 1
        for place, facet in enumerate(self.facets):
            if facet.pinned:
                weak[self.block(place)] = 0
        return np.concatenate([weak, np.zeros(len(self.groups) * self.steps)])


def rasch_design(
    candidates: tuple[Sequence[str], np.ndarray],
    facets: Sequence[tuple[str, Sequence[str], np.ndarray]],
    ratings: np.ndarray,
    steps_of: str | None = None,
) -> RaschDesign:
    """Build the design from codes (n,). `steps_of` names the facet whose elements have steps of their own.

    A category that nobody used within a step group is left out of that group, and named in `skipped`.
    """
    names = [name for name, _, _ in facets]
    single = [name for name, labels, _ in facets if len(labels) < 2]
    if single:
        sentence = N_("has one element only; a facet needs two or more")
        raise RefusedError(Fault("one-element", sentence, {}, name) for name in single)
    labels, owner = (("all",), np.zeros(len(ratings), np.int64))
    if steps_of is not None:
        _, labels, owner = facets[names.index(steps_of)]
    category, top, values, skipped = _categories(ratings, owner, labels)
    starts = np.cumsum([0, *(len(these) for _, these, _ in facets)])
    codes = np.column_stack([code + start for (_, _, code), start in zip(facets, starts, strict=False)])
    key = np.zeros(len(ratings), np.int64)
    for _, these, code in facets:
        key = key * len(these) + code
    _, first, cell = np.unique(key, return_index=True, return_inverse=True)
    kinds = tuple(Facet(name, tuple(these), name == PINNED) for name, these, _ in facets)
    return RaschDesign(
        tuple(candidates[0]),
        kinds,
        candidates[1],
        cell,
        category,
        codes[first],
        owner[first],
        top,
        values,
        tuple(labels),
        block_diag(
            *(kind.contrast for kind in kinds),
            *_step_contrasts(top, values.shape[1] - 1),
        ),
        skipped,
    )


PINNED = "(term)"


def _step_contrasts(top: np.ndarray, steps: int) -> list[np.ndarray]:
    blocks = []
    for reach in top:
        block = np.zeros((steps, reach - 1))
        block[: reach - 1] = np.eye(reach - 1)
        block[reach - 1] = -1
        blocks.append(block)
    return blocks


def _categories(ratings: np.ndarray, owner: np.ndarray, labels: Sequence[str]):
    used = [np.unique(ratings[owner == place]) for place in range(len(labels))]
    flat = [labels[place] for place, those in enumerate(used) if len(those) < 2]
    if flat:
        sentence = N_("every rating is the same; nothing can be told of it")
        raise RefusedError(Fault("no-variation", sentence, {}, name) for name in flat)
    category = np.zeros(len(ratings), np.int64)
    values = np.full((len(labels), max(map(len, used))), np.nan)
    crowded = [(labels[place], len(those)) for place, those in enumerate(used) if len(those) > MOST_CATEGORIES]
    if crowded:
        sentence = N_("takes {found} different ratings; a scale of steps has {most} at most")
        raise RefusedError(
            Fault("too-many", sentence, {"found": found, "most": MOST_CATEGORIES}, name) for name, found in crowded
        )
    skipped = []
    for place, those in enumerate(used):
        mine = owner == place
        category[mine] = np.searchsorted(those, ratings[mine])
        values[place, : len(those)] = those
        inside = ratings[(ratings > those[0]) & (ratings < those[-1])]
        whole = np.arange(those[0], those[-1] + 1)
        gaps = np.setdiff1d(np.union1d(whole, np.unique(inside)), those)
        if (those == np.floor(those)).all():
            skipped += [f"{labels[place]}: {gap:g}" for gap in gaps]
    return (
        category,
        np.array([len(those) - 1 for those in used]),
        values,
        tuple(skipped),
    )
