"""Entries gathered into classes that no rule tells apart."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from assessments.hours.clauses import Clauses, Counted
from assessments.hours.credit import Earned
from assessments.hours.entry import Entry
from curriculum.requirements.amounts import Share
from curriculum.requirements.requirement_set import TIMES, Cap

Held = tuple[Entry, Earned]


@dataclass(frozen=True, slots=True)
class Item:
    """One or several entries alike: what they earn by category, the clauses they match, the values they hold."""

    entries: tuple[Entry, ...]
    credit: Mapping[str, Fraction]
    mask: int
    values: Mapping[str, tuple[str, ...]]


def items_of(
    clauses: Clauses, held: Iterable[Held], single: bool = False, telling: Mapping[str, set[str]] | None = None
) -> list[Item]:
    """Classes of the entries that earn something; `single` keeps every entry on its own.

    `telling` are the values found before by `telling_values` for the same entries.
    """
    held = [(entry, earned) for entry, earned in held if earned.minutes]
    telling = telling_values(clauses, held) if telling is None else telling
    found: dict[object, list[Held]] = {}
    for entry, earned in held:
        credit = earned.minutes
        first = next(iter(credit.values()))
        shape = tuple((name, 1 if value == first else value / first) for name, value in credit.items())
        values = tuple((name, kept) for name, some in telling.items() if (kept := _kept(entry, name, some)))
        key = (entry.id if single else "", shape, clauses.mask(entry), values)
        found.setdefault(key, []).append((entry, earned))
    return [_item(key, members) for key, members in found.items()]


def _kept(entry: Entry, name: str, some: set[str]) -> tuple[str, ...]:
    return tuple(sorted({value for value in entry.values(name) if value in some}))


def _item(key: tuple, members: list[Held]) -> Item:
    credit = members[0][1].minutes
    if len(members) > 1:
        credit = {name: sum((earned.minutes[name] for _, earned in members), Fraction(0)) for name in credit}
    ordered = sorted((entry for entry, _ in members), key=lambda one: (one.date, one.id))
    return Item(tuple(ordered), credit, key[2], dict(key[3]))


def telling_values(clauses: Clauses, held: Iterable[Held]) -> dict[str, set[str]]:
    """By field, the values that some rule must look at one by one: a day only if its cap can be passed."""
    found: dict[str, set[str]] = {}
    earning = [(entry, clauses.mask(entry), earned.minutes) for entry, earned in held if earned.minutes]
    for one in clauses.counted:
        sums = _sums(one, 1 << clauses.number(one.rule.accepts), earning)
        some = found.setdefault(one.field, set())
        some.update(value for value, total in sums.items() if _tells(one.rule, one.field, total))
    return found


def _sums(counted: Counted, bit: int, earning: list[tuple[Entry, int, Mapping[str, Fraction]]]) -> dict[str, Fraction]:
    """The most credit that could go to each value a rule counts."""
    sums: dict[str, Fraction] = {}
    for entry, mask, minutes in earning:
        able = [minutes[name] for name in counted.categories if name in minutes] if mask & bit else ()
        if able:
            credit = able[0] if len(able) == 1 else max(able)
            for value in set(entry.values(counted.field)):
                sums[value] = sums[value] + credit if value in sums else credit
    return sums


def _tells(rule: object, name: str, total: Fraction) -> bool:
    free = isinstance(rule, Cap) and name in TIMES and not isinstance(rule.at_most, Share) and total <= rule.at_most
    return not free
