"""When a gate opens: the first date by which all its conditions hold."""

from collections.abc import Iterable
from datetime import date
from fractions import Fraction

from assessments.hours.entry import Entry, Facts
from curriculum.requirements.requirement_set import Condition, Gate, RequirementSet


def opening(gate: Gate, requirements: RequirementSet, entries: Iterable[Entry], facts: Facts) -> date | None:
    """The day the gate opens, given the entries inside the window; None while it stays shut."""
    entries = sorted(entries, key=lambda one: (one.date, one.id))
    days = [_met_on(condition, requirements, entries, facts) for condition in gate.when]
    if None in days:
        return None
    day = max(days)
    return day if all(_still_valid(condition, facts, day) for condition in gate.when) else None


def _met_on(
    condition: Condition,
    requirements: RequirementSet,
    entries: list[Entry],
    facts: Facts,
) -> date | None:
    if condition.kind == "practical":
        return facts.practicals.get(condition.name)
    if condition.kind == "module":
        return facts.modules.get(condition.name)
    if condition.kind == "document":
        span = facts.documents.get(condition.name)
        return span.start if span else None
    return _minutes_on(condition, requirements, entries)


def _minutes_on(condition: Condition, requirements: RequirementSet, entries: list[Entry]) -> date | None:
    categories = [one for one in requirements.categories if condition.kind == "total" or one.id == condition.name]
    total = Fraction(0)
    if condition.at_least <= 0:
        return date.min
    for entry in entries:
        able = any(entry.state in one.counts and entry.matches(one.accepts) for one in categories)
        if able and entry.matches(condition.accepts):
            total += entry.minutes
            if total >= condition.at_least:
                return entry.date
    return None


def _still_valid(condition: Condition, facts: Facts, day: date) -> bool:
    if condition.kind != "document":
        return True
    end = facts.documents[condition.name].end
    return end is None or day <= end
