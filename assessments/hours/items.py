"""The entries that earn something, each with what the rules must know of it."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from assessments.hours.clauses import Clauses
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


def items_of(clauses: Clauses, held: Iterable[Held], masks: Iterable[int]) -> list[Item]:
    """The entries that earn something; `held` is the whole log in (date, id) order, from which places are counted.

    `masks` says of each which clauses it matches.
    """
    earning = [
        (place, entry, mask, earned.minutes)
        for place, ((entry, earned), mask) in enumerate(zip(held, masks, strict=True), start=1)
        if earned.minutes
    ]
    telling = _telling_values(clauses, earning)
    looked_at = {one.id: _looked_at(clauses, one.id, telling) for one in clauses.requirements.categories}
    found = []
    for place, entry, mask, minutes in earning:
        values: dict[str, tuple[str, ...]] = {}
        for category in minutes:
            for name, some in looked_at[category]:
                if name not in values and (kept := _kept(entry.values(name), some)):
                    values[name] = kept
        found.append(Item(entry, place, minutes, mask, values))
    return found


def _looked_at(clauses: Clauses, category: str, telling: Mapping[str, set[str]]) -> list[tuple[str, set[str]]]:
    """The fields whose values some rule counts in a category."""
    fields = dict.fromkeys(one.field for one in clauses.counted if category in one.categories)
    return [(name, telling[name]) for name in fields if telling[name]]


def _kept(values: tuple[str, ...], some: set[str]) -> tuple[str, ...]:
    if len(values) == 1:
        return values if values[0] in some else ()
    return tuple(sorted({value for value in values if value in some}))


Earning = Sequence[tuple[int, Entry, int, Mapping[str, Fraction | int]]]
Creditable = Sequence[tuple[Entry, int, Fraction | int]]


def _telling_values(clauses: Clauses, earning: Earning) -> dict[str, set[str]]:
    """By field, the values that some rule must look at one by one: a day only if its cap can be passed."""
    by_category: dict[str, list] = {one.id: [] for one in clauses.requirements.categories}
    for _, entry, mask, minutes in earning:
        for name, credit in minutes.items():
            by_category[name].append((entry, mask, credit))
    most = [(entry, mask, max(minutes.values())) for _, entry, mask, minutes in earning]
    found: dict[str, set[str]] = {}
    for one in clauses.counted:
        over = most if one.overall else by_category[one.categories[0]]
        sums = _sums(clauses.bit(one.rule.accepts), one.field, over)
        found.setdefault(one.field, set()).update(value for value, total in sums.items() if _tells(one.rule, total))
    return found


def _sums(bit: int, field: str, creditable: Creditable) -> dict[str, Fraction | int]:
    """The most credit that could go to each value a rule counts."""
    sums: dict[str, Fraction | int] = {}
    for entry, mask, credit in creditable:
        if mask & bit:
            for value in entry.values(field):
                sums[value] = sums.get(value, 0) + credit
    return sums


def _tells(rule: object, total: Fraction | int) -> bool:
    free = isinstance(rule, Cap) and rule.per in TIMES and not isinstance(rule.at_most, Share) and total <= rule.at_most
    return not free
