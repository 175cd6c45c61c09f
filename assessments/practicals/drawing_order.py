"""The order of a list's tasks that spends least time on transitions.

Exact by dynamic programming over subsets (Held and Karp 1962) up to `EXACT_TASKS` tasks.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy

from assessments.practicals.bank import BankExercise

EXACT_TASKS = 14
Seconds = Callable[[BankExercise, BankExercise], float]


@dataclass(frozen=True, slots=True)
class Transitions:
    """Seconds from one task to the next: by pair where written (either way round), else for each field that changes."""

    fields: Mapping[str, float]
    pairs: Mapping[tuple[str, str], float]

    @property
    def is_empty(self) -> bool:
        return not self.fields and not self.pairs

    def seconds(self, before: BankExercise, after: BankExercise) -> float:
        for pair in ((before.id, after.id), (after.id, before.id)):
            if pair in self.pairs:
                return self.pairs[pair]
        return sum(cost for name, cost in self.fields.items() if before.fields.get(name) != after.fields.get(name))


NONE = Transitions({}, {})


@dataclass(frozen=True, slots=True)
class Ordered:
    """Tasks in order, their transition seconds, and the seconds that no order can undercut."""

    tasks: tuple[BankExercise, ...]
    seconds: float
    bound: float

    @property
    def is_proven(self) -> bool:
        return self.seconds - self.bound <= 1e-6


def ordered(tasks: Sequence[BankExercise], transitions: Transitions) -> Ordered:
    """The order of least transition time, or the given (edition's) order when no transitions are known."""
    if transitions.is_empty or len(tasks) < 2:
        return Ordered(tuple(tasks), 0.0, 0.0)
    cost = numpy.array([[transitions.seconds(a, b) for b in tasks] for a in tasks], dtype=float)
    order, bound = _exact(cost) if len(tasks) <= EXACT_TASKS else _near(cost)
    seconds = _length(cost, order)
    return Ordered(tuple(tasks[i] for i in order), seconds, seconds if bound is None else bound)


def _length(cost: numpy.ndarray, order: Sequence[int]) -> float:
    return float(sum(cost[a, b] for a, b in zip(order, order[1:], strict=False)))


def _exact(cost: numpy.ndarray) -> tuple[list[int], None]:
    """`best[subset, last]` is the least time of an order of the subset that ends with `last`."""
    size = len(cost)
    best = numpy.full((1 << size, size), numpy.inf)
    came = numpy.full((1 << size, size), -1)
    best[1 << numpy.arange(size), numpy.arange(size)] = 0.0
    subsets = numpy.arange(1 << size)
    members = sum(subsets >> one & 1 for one in range(size))
    for many in range(2, size + 1):
        for last in range(size):
            chosen = subsets[(members == many) & (subsets >> last & 1 == 1)]
            reached = best[chosen ^ (1 << last)] + cost[:, last]
            came[chosen, last] = reached.argmin(axis=1)
            best[chosen, last] = reached.min(axis=1)
    subset = (1 << size) - 1
    order = [int(best[subset].argmin())]
    while came[subset, order[-1]] >= 0:
        last = order[-1]
        order.append(int(came[subset, last]))
        subset ^= 1 << last
    return order[::-1], None


def _near(cost: numpy.ndarray) -> tuple[list[int], float]:
    """The nearest next task from every start, the best of them mended by moving single tasks; a bound from below."""
    order = min((_nearest(cost, start) for start in range(len(cost))), key=lambda one: _length(cost, one))
    better = True
    while better:
        moved = [_moved(order, i, j) for i in range(len(order)) for j in range(len(order)) if i != j]
        found = min(moved, key=lambda one: _length(cost, one))
        better = _length(cost, found) < _length(cost, order) - 1e-9
        order = found if better else order
    apart = cost + numpy.diag(numpy.full(len(cost), numpy.inf))
    least = [sorted(apart.min(axis=axis))[:-1] for axis in (0, 1)]
    return order, float(max(map(sum, least)))


def _nearest(cost: numpy.ndarray, start: int) -> list[int]:
    order, left = [start], set(range(len(cost))) - {start}
    while left:
        order.append(min(sorted(left), key=lambda one: cost[order[-1], one]))
        left.remove(order[-1])
    return order


def _moved(order: list[int], source: int, target: int) -> list[int]:
    rest = order[:source] + order[source + 1 :]
    return [*rest[:target], order[source], *rest[target:]]
