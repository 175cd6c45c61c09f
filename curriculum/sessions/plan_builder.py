"""The best ordered selection of exercises in a given time, exactly, by dynamic programming.

A selection keeps the order of the edition, so it is a path through the exercises in that order. For each last
exercise, each set of movement families and each worth, the program keeps the least time in which they can be had.
What doesn't fit is never kept, and nothing else is thrown away, so the best end is the optimum: the gap is 0.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, lcm

import numpy as np

from curriculum.faults import N_, Fault, RefusedError
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import FAMILIES, Exercise
from curriculum.sessions.plan import Plan
from curriculum.sessions.transition import passage

FAMILY_WORTH = 5
FINEST = 1_000_000


@dataclass(frozen=True, slots=True)
class Wish:
    """What a plan is built for: `minutes` bounds factor × (moving + transitions) + intake + close."""

    minutes: int
    level: str
    client: tuple[str, ...] = ()
    factor: Fraction = Fraction(1)
    intake: int = 0
    close: int = 0
    foot_bar: str = ""
    apparatus: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BuiltPlan:
    """The best plan: `value` is the sum of worths and FAMILY_WORTH for each movement family in it; of plans with the
    same value the shortest is taken. `bound` is the best value possible, `gap` the part of it that is missed."""

    plan: Plan
    value: int
    bound: int
    considered: int

    @property
    def gap(self) -> float:
        return 0.0 if not self.bound else (self.bound - self.value) / self.bound


def candidates(edition: Edition, wish: Wish) -> tuple[Exercise, ...]:
    """Exercises up to the wished level that no caution of the client withholds, in the edition's order."""
    highest = edition.level_rank(wish.level)
    return tuple(
        one
        for one in edition.exercises
        if edition.level_rank(one.level) <= highest
        and (not wish.apparatus or one.apparatus in wish.apparatus)
        and not any((found := one.caution(code)) and found.action == "withhold" for code in wish.client)
    )


def build_plan(edition: Edition, wish: Wish) -> BuiltPlan:
    """The best plan for a wish; raises `RefusedError` where nothing at all fits."""
    found = candidates(edition, wish)
    budget = (wish.minutes * 60 - wish.intake - wish.close) / Fraction(wish.factor)
    moving = [one.seconds for one in found]
    unit = lcm(*(seconds.denominator for seconds in moving)) if moving else 1
    if unit > FINEST:
        # Rounded up to a thousandth of a second, so that a plan never runs over.
        unit = 1000
    between = [
        [passage(edition, a, b, wish.foot_bar, wish.level).seconds * unit if i < j else 0 for j, b in enumerate(found)]
        for i, a in enumerate(found)
    ]
    lengths = [ceil(seconds * unit) for seconds in moving]
    families = [sum(1 << FAMILIES.index(family) for family in set(one.families)) for one in found]
    best = best_path(lengths, between, [one.worth for one in found], families, int(budget * unit))
    if not best.places:
        raise RefusedError([Fault("nothing-fits", N_("no exercise fits into the time"), {}, "minutes")])
    plan = Plan(
        tuple(found[place].id for place in best.places),
        "",
        wish.level,
        wish.client,
        Fraction(wish.factor),
        wish.intake,
        wish.close,
        wish.minutes,
        wish.foot_bar,
    )
    return BuiltPlan(plan, best.value, best.value, len(found))


@dataclass(frozen=True, slots=True)
class Path:
    """Places in rising order, their value, and the whole time they take."""

    places: tuple[int, ...]
    value: int
    time: int


def best_path(
    lengths: list[int],
    between: list[list[int]],
    worths: list[int],
    families: list[int],
    budget: int,
) -> Path:
    """The rising selection of places with the highest value within `budget`; of equals the quickest.

    `between[i][j]` is the time from place i to a later place j; `families` are sets of bits.
    """
    table = _table(lengths, between, worths, families, budget)
    end = _best_end(table, budget)
    if end is None:
        return Path((), 0, 0)
    value, time, place, mask, worth = end
    return Path(
        _walk_back(table, between, lengths, worths, families, (place, mask, worth)),
        value,
        time,
    )


def _table(lengths, between, worths, families, budget) -> np.ndarray:
    """table[place, families, worth] = least time of a selection that ends at `place`."""
    masks, highest = _number_of_masks(families), _highest_worth(lengths, worths, budget)
    never = 4 * (budget + 1 + max(map(max, between), default=0))
    kind = np.int32 if never < 1 << 30 else np.int64
    table = np.full((len(lengths), masks, highest + 1), never, dtype=kind)
    for place, length in enumerate(lengths):
        if length > budget:
            continue
        table[place, families[place], worths[place]] = length
        arrived = _arrivals(table[:place], [row[place] for row in between[:place]], never) + length
        arrived[arrived > budget] = never
        worth = worths[place]
        for mask in range(masks):
            row = table[place, mask | families[place], worth:]
            np.minimum(row, arrived[mask, : highest + 1 - worth], out=row)
    return table


def _arrivals(before: np.ndarray, ways: list[int], never: int) -> np.ndarray:
    """The least time to leave one of the places before, the way on included."""
    least = np.full(before.shape[1:], never, dtype=before.dtype)
    for times, way in zip(before, ways, strict=True):
        np.minimum(least, times + before.dtype.type(way), out=least)
    return least


def _number_of_masks(families: list[int]) -> int:
    return 1 << max((mask.bit_length() for mask in families), default=0)


def _highest_worth(lengths: list[int], worths: list[int], budget: int) -> int:
    """No selection is worth more than the best by worth for its time, with the last one cut to fit."""
    total, left = 0, budget
    if not any(length <= budget for length in lengths):
        return 0
    for length, worth in sorted(zip(lengths, worths, strict=True), key=lambda one: (one[0] / one[1], one[0])):
        if length > left:
            return total + max(worths)
        total, left = total + worth, left - length
    return total


def _best_end(table: np.ndarray, budget: int):
    best = None
    if not table.size:
        return None
    quickest = table.min(axis=0)
    for mask in range(quickest.shape[0]):
        reached = np.flatnonzero(quickest[mask] <= budget)
        for worth in reached:
            value = int(worth) + FAMILY_WORTH * mask.bit_count()
            time = int(quickest[mask, worth])
            if best is None or (value, -time) > (best[0], -best[1]):
                best = (
                    value,
                    time,
                    int(table[:, mask, worth].argmin()),
                    mask,
                    int(worth),
                )
    return best


def _walk_back(table, between, lengths, worths, families, end) -> tuple[int, ...]:
    place, mask, worth = end
    places = [place]
    while True:
        time, found = int(table[place, mask, worth]), None
        if mask == families[place] and worth == worths[place] and time == lengths[place]:
            return tuple(reversed(places))
        for before in range(place - 1, -1, -1):
            wanted = time - lengths[place] - between[before][place]
            for old in range(table.shape[1]):
                if old | families[place] == mask and table[before, old, worth - worths[place]] == wanted:
                    found = (before, old, worth - worths[place])
                    break
            if found:
                break
        place, mask, worth = found
        places.append(place)
