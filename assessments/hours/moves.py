"""What the credit of sessions that did not change themselves did when the log around them changed, and why."""

from collections import defaultdict
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from assessments.hours.standing import Standing


@dataclass(frozen=True, slots=True)
class Move:
    """Minutes of an entry that left the category `of` for `to`; "" is no credit.

    `why` is "enough" (the category they left has all it asks for without them), "needed" (so less is left to do), or
    where they lost or gained credit the code of the reason (see `REASONS`) that holds now or held before; `rule` is the
    rule or category behind that.
    """

    entry: str
    minutes: int
    of: str
    to: str
    why: str
    rule: str = ""


def moves(before: Standing, after: Standing, unchanged: Collection[str]) -> tuple[Move, ...]:
    """The moves of the entries `unchanged`, in the order of the log."""
    then, now = _given(before), _given(after)
    names = dict.fromkeys([one.entry for one in (*before.given, *after.given)])
    return tuple(
        move for name in names if name in unchanged for move in _of_entry(name, then[name], now[name], before, after)
    )


def _given(standing: Standing) -> defaultdict[str, dict[str, int]]:
    found: defaultdict[str, dict[str, int]] = defaultdict(dict)
    for one in standing.given:
        found[one.entry][one.category] = one.minutes
    return found


def _of_entry(
    name: str, then: dict[str, int], now: dict[str, int], before: Standing, after: Standing
) -> Iterator[Move]:
    changes = {category: now.get(category, 0) - then.get(category, 0) for category in dict.fromkeys((*then, *now))}
    left = {category: -change for category, change in changes.items() if change < 0}
    come = {category: change for category, change in changes.items() if change > 0}
    for of in left:
        for to in come:
            minutes = min(left[of], come[to])
            if minutes:
                left[of], come[to] = left[of] - minutes, come[to] - minutes
                yield Move(name, minutes, of, to, _why(of, after))
    yield from (Move(name, minutes, of, "", *_reason(name, after)) for of, minutes in left.items() if minutes)
    yield from (Move(name, minutes, "", to, *_reason(name, before)) for to, minutes in come.items() if minutes)


def _why(of: str, after: Standing) -> str:
    category = next(one for one in after.categories if one.id == of)
    return "enough" if category.credited >= category.needed else "needed"


def _reason(name: str, standing: Standing) -> tuple[str, str]:
    return next(((one.reason, one.rule) for one in standing.set_aside if one.entry == name), ("other_rules", ""))
