"""How fast the least further time has to go: evenly until the window's end, and at the fastest that the caps let count.

What takes time is reckoned in favour of the trainee: today counts whole, and the rules are taken one by one. So a day said
to be the last on which to begin is never too early, and what is said to be impossible is.
"""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from fractions import Fraction
from math import ceil

from assessments.hours.standing import Pace, RuleStanding, Spell, up
from curriculum.requirements.amounts import Amount, Share
from curriculum.requirements.requirement_set import Cap, RequirementSet

WEEK = 7


def pace_of(
    requirements: RequirementSet,
    further: int,
    by_category: Mapping[str, int],
    rules: Iterable[RuleStanding],
    as_of: date,
    end: date | None,
) -> Pace:
    """The pace of what is still to do: `further` minutes in all, of them at least so many `by_category`."""
    most = most_a_week(requirements)
    if end is None or further == 0:
        return Pace(end, None if end is None else (end - as_of).days, None, most)
    left = max(0, (end - as_of).days)
    needed = up(further / Fraction(left, WEEK)) if left else None
    if end < as_of:
        return Pace(end, left, needed, most, over=True)
    spells = [
        *_at_the_caps(requirements.limits, "", further, end, Fraction(0)),
        *(spell for one in requirements.categories for spell in _in_category(one, by_category.get(one.id, 0), end)),
        *(_different_days(requirements, one, end) for one in rules if _asks_for_days(requirements, one)),
    ]
    slowest = min(spells, key=lambda one: one.begin, default=None)
    too_long = tuple(one for one in spells if one.begin < as_of)
    return Pace(end, left, needed, most, False, too_long, slowest)


def most_a_week(requirements: RequirementSet) -> int | None:
    """The most minutes a week that the overall caps per day and week allow."""
    found = []
    for cap in requirements.limits:
        if cap.per in ("day", "week") and not isinstance(cap.at_most, Share) and not cap.accepts:
            found.append(cap.at_most * (WEEK if cap.per == "day" else 1))
    return int(min(found)) if found else None


def _in_category(category, minutes: int, end: date) -> Iterator[Spell]:  # noqa: ANN001
    return _at_the_caps(category.limits, category.id, minutes, end, category.at_least)


def _at_the_caps(caps: Iterable[Cap], category: str, minutes: int, end: date, need: Fraction) -> Iterator[Spell]:
    for cap in caps:
        most = _fixed(cap.at_most, need)
        if minutes and most and cap.per in ("day", "week") and not cap.accepts:
            yield _spell("caps", cap.id, category, cap.per, ceil(minutes / most), end, minutes)


def _fixed(amount: Amount, need: Fraction) -> Fraction | None:
    if isinstance(amount, Share):
        return None if amount.of else amount.part * need
    return amount


def _asks_for_days(requirements: RequirementSet, rule: RuleStanding) -> bool:
    return rule.kind == "variety" and rule.short > 0 and _variety(requirements, rule).of in ("day", "week")


def _different_days(requirements: RequirementSet, rule: RuleStanding, end: date) -> Spell:
    per = _variety(requirements, rule).of
    return _spell("variety", rule.id, rule.category, per, rule.short, end, 0)


def _variety(requirements: RequirementSet, rule: RuleStanding):  # noqa: ANN202
    return next(one for one in requirements.category(rule.category).variety if one.id == rule.id)


def _spell(why: str, rule: str, category: str, per: str, number: int, end: date, minutes: int) -> Spell:
    """The last day from which so many days or calendar weeks are left up to `end`, both counted."""
    begin = end - timedelta(days=number - 1)
    if per == "week" and number > 1:
        begin = end - timedelta(days=end.weekday() + WEEK * (number - 2) + 1)
    elif per == "week":
        begin = end
    return Spell(why, rule, category, per, number, begin, minutes)
