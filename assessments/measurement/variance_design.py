"""The effects of a design that is crossed, nested or both: which there are, and which level each score is at."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from curriculum.faults import N_, Fault, RefusedError

OBJECT = 0


@dataclass(frozen=True, slots=True)
class Effect:
    """One source of variation: its factors (places in the design), its name, the level of every score (n,)."""

    factors: frozenset[int]
    name: str
    codes: np.ndarray
    levels: int

    @property
    def of_object(self) -> bool:
        return OBJECT in self.factors

    @property
    def facets(self) -> frozenset[int]:
        return self.factors - {OBJECT}


@dataclass(frozen=True, slots=True)
class VarianceDesign:
    """Scores (n,) and the effects of the design; the last effect is the residual, one level a score."""

    factors: tuple[str, ...]
    effects: tuple[Effect, ...]
    scores: np.ndarray
    cells: int
    balanced: bool

    def effect(self, factors: frozenset[int]) -> Effect:
        return next(effect for effect in self.effects if effect.factors == factors)

    @property
    def object_effect(self) -> Effect:
        """The smallest effect that holds the object: itself, within whatever it is nested in."""
        return next(effect for effect in self.effects if effect.of_object)

    @property
    def objects(self) -> int:
        return self.object_effect.levels

    def averaged(self, effect: Effect) -> frozenset[int]:
        """The facets that a mean over a plan averages an effect over."""
        return effect.factors - (self.object_effect.factors if effect.of_object else {OBJECT})


def variance_design(
    factors: Sequence[str],
    codes: Sequence[np.ndarray],
    scores: np.ndarray,
    nested: Mapping[str, Sequence[str]] | None = None,
) -> VarianceDesign:
    """Build the design. `factors[0]` is the object of measurement; `codes` (n,) integers for each factor.

    `nested` gives, for a factor, those it is nested in. `RefusedError` when a nesting is unknown or circular.
    """
    parents = _parents(factors, nested or {})
    sets = _closed_sets(len(factors), parents)
    effects = []
    for members in sets:
        level, count = _levels([codes[factor] for factor in sorted(members)])
        effects.append(Effect(members, _name(members, factors, parents, nested or {}), level, count))
    top = effects[-1]
    cells = top.levels
    n = len(scores)
    effects[-1] = Effect(top.factors, top.name, np.arange(n), n)
    balanced = cells == n and all(np.ptp(np.bincount(effect.codes)) == 0 for effect in effects[:-1])
    design = VarianceDesign(tuple(factors), tuple(effects), scores.astype(float), cells, balanced)
    _refuse_confounded(design)
    return design


def _parents(factors: Sequence[str], nested: Mapping[str, Sequence[str]]) -> list[frozenset[int]]:
    place = {name: number for number, name in enumerate(factors)}
    strange = sorted({name for inner, outer in nested.items() for name in (inner, *outer)} - set(place))
    if strange:
        sentence = N_("is not among {factors}")
        raise RefusedError(Fault("nested", sentence, {"factors": ", ".join(factors)}, name) for name in strange)
    parents = [frozenset(place[outer] for outer in nested.get(name, ())) for name in factors]
    for _ in factors:
        parents = [mine.union(*(parents[outer] for outer in mine)) for mine in parents]
    circular = [factors[number] for number, mine in enumerate(parents) if number in mine]
    if circular:
        raise RefusedError(Fault("nested", N_("is nested in itself"), {}, name) for name in circular)
    return parents


def _closed_sets(count: int, parents: Sequence[frozenset[int]]) -> list[frozenset[int]]:
    found: dict[frozenset[int], None] = {}
    for size in range(1, count + 1):
        for members in combinations(range(count), size):
            found[frozenset(members).union(*(parents[member] for member in members))] = None
    return sorted(found, key=lambda members: (len(members), sorted(members)))


def _name(
    members: frozenset[int],
    factors: Sequence[str],
    parents,
    nested: Mapping[str, Sequence[str]],
) -> str:
    inside = frozenset().union(*(parents[member] for member in members))
    return " x ".join(_nested_name(factors[member], nested) for member in sorted(members - inside))


def _nested_name(factor: str, nested: Mapping[str, Sequence[str]]) -> str:
    outer = nested.get(factor)
    return f"{factor}({' x '.join(_nested_name(name, nested) for name in outer)})" if outer else factor


def _levels(columns: Sequence[np.ndarray]) -> tuple[np.ndarray, int]:
    together = np.zeros(len(columns[0]), dtype=np.int64)
    for column in columns:
        key = together * (int(column.max()) + 1) + column
        together = np.unique(key, return_inverse=True)[1]
    return together, int(together.max()) + 1


def _refuse_confounded(design: VarianceDesign) -> None:
    seen: dict[bytes, str] = {}
    faults = []
    for effect in design.effects:
        _, first, level = np.unique(effect.codes, return_index=True, return_inverse=True)
        mark = first[level].tobytes()
        if mark in seen:
            values = {"one": seen[mark], "other": effect.name}
            sentence = N_("{one} and {other} can't be told apart in these data; leave one out, or say what is nested")
            faults.append(Fault("confounded", sentence, values))
        seen.setdefault(mark, effect.name)
    if faults:
        raise RefusedError(faults)
