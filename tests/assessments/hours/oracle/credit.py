"""What an entry earns if wholly credited to a category, c[e,p], written sentence by sentence."""

import calendar
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from math import floor

from tests.assessments.hours.oracle.documents import Category, Entry, Facts, Gate, RequirementSet


@dataclass(frozen=True)
class Case:
    requirements: RequirementSet
    entries: list[Entry]  # one trainee's, in (date, id) order
    as_of: date
    enrolled: date | None
    facts: Facts


def matches(accepts: dict[str, list[str]], fields: dict[str, tuple[str, ...]]) -> bool:
    return all(set(wanted) & set(fields.get(name, ())) for name, wanted in accepts.items())


def credit(case: Case, entry: Entry, category: Category) -> Fraction:
    if not could_be_credited(case, entry, category):
        return Fraction(0)
    if lapsed(case, entry.date) or entry.date > case.as_of:
        return Fraction(0)
    if any(not gate_open(case, gate, entry.date) for gate in case.requirements.gates if gate.category == category.id):
        return Fraction(0)
    minutes = Fraction(entry.minutes)
    minutes = next((as_ for low, high, as_ in category.sessions if low <= entry.minutes <= high), minutes)
    if category.round_down_to:
        minutes = floor(minutes / category.round_down_to) * category.round_down_to
    weight = next((w for accepts, w in category.weights if matches(accepts, entry.fields)), Fraction(1))
    return minutes * weight


def could_be_credited(case: Case, entry: Entry, category: Category) -> bool:
    return matches(category.accepts, entry.fields) and entry.state in category.counts and in_window(case, entry.date)


def in_window(case: Case, day: date) -> bool:
    if case.enrolled is None or "months" not in case.requirements.window:
        return True
    return case.enrolled <= day <= window_end(case)


def window_end(case: Case) -> date:
    window = case.requirements.window
    end = months_later(case.enrolled, window["months"])
    for _ in case.facts.extensions:
        end = months_later(end, window.get("extension_months", 0))
    return end + timedelta(days=sum((last - first).days + 1 for first, last in case.facts.leave))


def lapsed(case: Case, day: date) -> bool:
    months = case.requirements.window.get("lapses_after_months")
    return months is not None and months_later(day, months) < case.as_of


def months_later(day: date, months: int) -> date:
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def gate_open(case: Case, gate: Gate, day: date) -> bool:
    """Open on a day if on that day or an earlier one all conditions hold."""
    return any(all(holds(case, condition, d) for condition in gate.when) for d in days_that_matter(case) if d <= day)


def days_that_matter(case: Case) -> Iterator[date]:
    yield from (entry.date for entry in case.entries)
    yield from case.facts.practicals.values()
    yield from case.facts.modules.values()
    yield from (first for first, _ in case.facts.documents.values())


def holds(case: Case, condition: dict, day: date) -> bool:
    facts = case.facts
    if "practical" in condition:
        return facts.practicals.get(condition["practical"], date.max) <= day
    if "module" in condition:
        return facts.modules.get(condition["module"], date.max) <= day
    if "document" in condition:
        first, last = facts.documents.get(condition["document"], (date.max, date.min))
        return first <= day <= last
    return minutes_by(case, condition, day) >= condition["minutes"]


def minutes_by(case: Case, condition: dict, day: date) -> int:
    requirements = case.requirements
    where = [requirements.category(condition["category"])] if "category" in condition else requirements.categories
    return sum(
        entry.minutes
        for entry in case.entries
        if entry.date <= day
        and matches(condition["accepts"], entry.fields)
        and any(could_be_credited(case, entry, category) for category in where)
    )
