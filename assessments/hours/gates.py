"""When a gate opens: the first date by which all its conditions hold."""

from collections.abc import Sequence
from datetime import date

from assessments.hours.clauses import Clauses
from assessments.hours.entry import Entry, Facts
from curriculum.requirements.requirement_set import Condition, Gate

Masked = tuple[Entry, int]


def opening(gate: Gate, clauses: Clauses, entries: Sequence[Masked], facts: Facts) -> date | None:
    """The day the gate opens, given the entries inside the window with their masks, by (date, id); None while it stays shut."""
    days = [_met_on(condition, clauses, entries, facts) for condition in gate.when]
    if None in days:
        return None
    day = max(days)
    return day if all(_still_valid(condition, facts, day) for condition in gate.when) else None


def _met_on(
    condition: Condition,
    clauses: Clauses,
    entries: Sequence[Masked],
    facts: Facts,
) -> date | None:
    if condition.kind == "practical":
        return facts.practicals.get(condition.name)
    if condition.kind == "module":
        return facts.modules.get(condition.name)
    if condition.kind == "document":
        span = facts.documents.get(condition.name)
        return span.start if span else None
    return _minutes_on(condition, clauses, entries)


def _minutes_on(condition: Condition, clauses: Clauses, entries: Sequence[Masked]) -> date | None:
    if condition.at_least <= 0:
        return date.min
    where = [
        (clauses.bit(one.accepts), one.counts)
        for one in clauses.requirements.categories
        if condition.kind == "total" or one.id == condition.name
    ]
    asked, total = clauses.bit(condition.accepts), 0
    for entry, mask in entries:
        if mask & asked and any(mask & bit and entry.state in counts for bit, counts in where):
            total += entry.minutes
            if total >= condition.at_least:
                return entry.date
    return None


def _still_valid(condition: Condition, facts: Facts, day: date) -> bool:
    if condition.kind != "document":
        return True
    end = facts.documents[condition.name].end
    return end is None or day <= end
