"""The entries that earn something, each with what the rules must know of it."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from assessments.hours.clauses import Clauses, Counted
from assessments.hours.credit import Earned
from assessments.hours.entry import Entry
from curriculum.requirements.amounts import Share
from curriculum.requirements.requirement_set import TIMES, Cap

Held = tuple[Entry, Earned]


class Item(NamedTuple):
    """An entry, its place in the log, what it earns by category, the clauses it matches, the values that tell."""

    entry: Entry
    place: int
    credit: Mapping[str, Fraction | int]
    mask: int
    values: Mapping[str, tuple[str, ...]]


def items_of(clauses: Clauses, held: Iterable[Held]) -> list[Item]:
    """The entries that earn something; `held` is the whole log in (date, id) order, from which places are counted."""
    earning = [
        (place, entry, clauses.mask(entry), earned.minutes)
        for place, (entry, earned) in enumerate(held, start=1)
        if earned.minutes
    ]
    telling = [(name, some) for name, some in _telling_values(clauses, earning).items() if some]
    return [
        Item(entry, place, minutes, mask, {name: _kept(entry.values(name), some) for name, some in telling})
        for place, entry, mask, minutes in earning
    ]


def _kept(values: tuple[str, ...], some: set[str]) -> tuple[str, ...]:
    if len(values) == 1:
        return values if values[0] in some else ()
    return tuple(sorted({value for value in values if value in some}))


Earning = Sequence[tuple[int, Entry, int, Mapping[str, Fraction | int]]]


def _telling_values(clauses: Clauses, earning: Earning) -> dict[str, set[str]]:
    """By field, the values that some rule must look at one by one: a day only if its cap can be passed."""
    found: dict[str, set[str]] = {}
    for one in clauses.counted:
        some = found.setdefault(one.field, set())
        some.update(value for value, total in _sums(clauses, one, earning).items() if _tells(one.rule, total))
    return found


def _sums(clauses: Clauses, counted: Counted, earning: Earning) -> dict[str, Fraction | int]:
    """The most credit that could go to each value a rule counts."""
    sums: dict[str, Fraction | int] = {}
    bit, categories, field = clauses.bit(counted.rule.accepts), counted.categories, counted.field
    only = categories[0] if len(categories) == 1 else None
    for _, entry, mask, minutes in earning:
        if not mask & bit or (only and only not in minutes):
            continue
        credit = minutes[only] if only else max(minutes.values())
        for value in entry.values(field):
            sums[value] = sums.get(value, 0) + credit
    return sums


def _tells(rule: object, total: Fraction | int) -> bool:
    free = isinstance(rule, Cap) and rule.per in TIMES and not isinstance(rule.at_most, Share) and total <= rule.at_most
    return not free
