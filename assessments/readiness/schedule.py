"""When each open criterion can be done at the earliest and must be begun at the latest, and in which order.

The critical path method (Kelley and Walker 1959): a forward pass for the earliest days, a backward pass
for the latest. What is only partly gated may start today and ends no earlier than its gate.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from assessments.readiness.criteria import Criterion


@dataclass(frozen=True, slots=True)
class Timing:
    """Days from today: earliest start and end; `chain` is the days through it and all it holds up.

    `slack` is how many days it may start later than it could, for the whole to end when it can.
    """

    start: int
    end: int
    chain: int
    slack: int


def timings(criteria: tuple[Criterion, ...], days: Mapping[str, int]) -> dict[str, Timing]:
    """Timings of the open criteria; `days` holds how long each open one takes."""
    opened = [one for one in in_gate_order(criteria) if one.id in days]
    starts: dict[str, int] = {}
    ends: dict[str, int] = {}
    for one in opened:
        starts[one.id] = max((ends[id] for id in one.after if id in days), default=0)
        gates = [ends[id] for id in one.part_after if id in days]
        ends[one.id] = max([starts[one.id] + days[one.id], *gates])
    chains = _chains(opened, days)
    last = max(ends.values(), default=0)
    return {
        one.id: Timing(starts[one.id], ends[one.id], chains[one.id], last - starts[one.id] - chains[one.id])
        for one in opened
    }


def _chains(opened: list[Criterion], days: Mapping[str, int]) -> dict[str, int]:
    chains: dict[str, int] = {}
    for one in reversed(opened):
        held = [chains[other.id] for other in opened if one.id in other.after]
        partly = [chains[other.id] - days[other.id] for other in opened if one.id in other.part_after]
        chains[one.id] = days[one.id] + max([*held, *partly], default=0)
    return chains


def in_gate_order(criteria: tuple[Criterion, ...]) -> list[Criterion]:
    """Gates before what they gate, otherwise as declared."""
    left, placed, found = list(criteria), set(), []
    while left:
        free = next(one for one in left if not {*one.after, *one.part_after} - placed)
        left.remove(free)
        placed.add(free.id)
        found.append(free)
    return found


def clearing_order(criteria: tuple[Criterion, ...], found: Mapping[str, Timing]) -> list[Criterion]:
    """The open criteria in the order in which to clear them.

    Gates before what they gate; among those that are free, what can start sooner, then what holds the
    certificate up longest.
    """
    opened = [one for one in criteria if one.id in found]
    weight = _weights(criteria, found)
    placed: set[str] = {one.id for one in criteria} - {one.id for one in opened}
    ordered: list[Criterion] = []
    while len(ordered) < len(opened):
        free = [one for one in opened if one.id not in placed and not {*one.after, *one.part_after} - placed]
        first = min(free, key=lambda one: (found[one.id].start, -weight[one.id], one.id))
        placed.add(first.id)
        ordered.append(first)
    return ordered


def _weights(criteria: tuple[Criterion, ...], found: Mapping[str, Timing]) -> dict[str, int]:
    """Days through a criterion and everything it gates, wholly or partly."""
    weights: dict[str, int] = {}
    opened = [one for one in in_gate_order(criteria) if one.id in found]
    for one in reversed(opened):
        gated = [weights[other.id] for other in opened if one.id in (*other.after, *other.part_after)]
        weights[one.id] = max([found[one.id].chain, *gated])
    return weights


def day_after(on: date, days: int) -> date:
    """The day so many days later (earlier, when negative), or the last (first) day there is."""
    return on + timedelta(days=min(max(days, (date.min - on).days), (date.max - on).days))
