"""Kinds of further time in a category, with the values that no rule tells apart merged.

A field's values fall into classes that every clause treats alike; a cell is one combination of classes, and cells
alike to every rule are one. Where a rule counts single values (hosts, clients), their shares of a group of cells are
laid down field by field: any such shares with the same sum come from some table of hosts by clients, so nothing is lost.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from assessments.hours.clauses import Clauses, Counted
from curriculum.requirements.requirement_set import TIMES, Variety

NEW = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Cells alike to the rules that count a field: which values share them, and which clauses they match."""

    field: str
    members: tuple[str, ...]
    mask: int
    cells: tuple[int, ...]

    @property
    def open(self) -> bool:
        return NEW in self.members


@dataclass(frozen=True, slots=True)
class Kinds:
    """`cells` holds the clause mask of every kind; `groups` the shares that single values may have."""

    category: str
    cells: tuple[int, ...]
    groups: tuple[Group, ...] = field(default=())


def kinds_of(clauses: Clauses, category: str, own: Mapping[str, Iterable[str]]) -> Kinds:
    """The kinds of further time in a category; `own` are the values of the trainee's own entries, by field."""
    touching = clauses.touching[category]
    counting = clauses.counting(category)
    named = sorted({name for i in touching for name in clauses.accepts[i]} | counting.keys())
    classes = {name: _classes(clauses, touching, name, own, counting) for name in named}
    start = sum(1 << i for i in touching)
    gate = 1 << clauses.number(clauses.requirements.category(category).accepts)
    states = {(start, ()): None}
    for name in named:
        states = {
            (mask & keep, where + ((index,) if name in counting else ())): None
            for mask, where in states
            for index, (keep, _) in enumerate(classes[name])
            if mask & keep & gate
        }
    counted_names = [name for name in named if name in counting]
    groups = []
    for position, name in enumerate(counted_names):
        groups.extend(_groups(clauses, name, counting[name], classes[name], list(states), position))
    return Kinds(category, tuple(mask for mask, _ in states), tuple(groups))


def _classes(
    clauses: Clauses, touching: list[int], name: str, own: Mapping[str, Iterable[str]],
    counting: Mapping[str, list[Counted]],
) -> list[tuple[int, tuple[str, ...]]]:  # fmt: skip
    """Classes of a field's values: the mask of clauses that stay matched, and the values."""
    closed = clauses.requirements.fields.get(name)
    asked = [(i, clauses.accepts[i].get(name)) for i in touching]
    if closed:
        values = list(closed)
    else:
        values = list(dict.fromkeys(value for _, some in asked for value in some or ()))
        if any(isinstance(one.rule, Variety) for one in counting.get(name, ())):
            values += sorted(set(own.get(name, ())) - set(values))
        values.append(NEW)
    found: dict[int, list[str]] = {}
    for value in values:
        keep = sum(1 << i for i, some in asked if some is None or value in some)
        found.setdefault(keep, []).append(value)
    return [(keep, tuple(members)) for keep, members in found.items()]


def _groups(
    clauses: Clauses,
    name: str,
    rules: list[Counted],
    classes: list,
    states: list,
    position: int,
) -> list[Group]:
    seen = 0
    for one in rules:
        seen |= 1 << clauses.number(one.rule.accepts)
    found: dict[tuple[int, int], list[int]] = {}
    for cell, (mask, where) in enumerate(states):
        found.setdefault((where[position], mask & seen), []).append(cell)
    return [Group(name, classes[index][1], mask, tuple(cells)) for (index, mask), cells in found.items()]


__all__ = ["NEW", "TIMES", "Group", "Kinds", "kinds_of"]
