"""Calendar months, and the time a trainee has."""

import calendar
from datetime import date, timedelta

from assessments.hours.entry import Facts
from curriculum.requirements.requirement_set import Window


def months_after(day: date, months: int) -> date:
    """The same day so many months later, clipped at the month's end."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def window_end(window: Window, enrolled: date, facts: Facts, as_of: date) -> date | None:
    """The last day that counts: months, extensions granted by `as_of`, then leave; None without a window.

    An extension moves the end there is, so that 28 February and one month is 28 March also for one enrolled on the
    31st. Days of leave count once, and only where the window is still open.
    """
    if window.months is None:
        return None
    end = months_after(enrolled, window.months)
    for day in facts.extensions:
        if day <= as_of:
            end = months_after(end, window.extension_months or 0)
    return _after_leave(end, enrolled, facts, as_of)


def earliest_end(window: Window, enrolled: date, facts: Facts, as_of: date) -> date | None:
    """The first day on which a training may be complete: the least months, then leave; None where none are asked for."""
    if window.least_months is None:
        return None
    return _after_leave(months_after(enrolled, window.least_months), enrolled, facts, as_of)


def _after_leave(end: date, enrolled: date, facts: Facts, as_of: date) -> date:
    counted = enrolled - timedelta(days=1)
    for leave in sorted(facts.leave, key=lambda span: span.start):
        start, last = max(leave.start, counted + timedelta(days=1)), leave.end or as_of
        if start <= end and last >= start:
            end += last - start + timedelta(days=1)
            counted = last
    return end


def lapse_day(window: Window, as_of: date) -> date | None:
    """Entries dated before this day have lapsed."""
    if window.lapses_after_months is None:
        return None
    first = months_after(as_of, -window.lapses_after_months)
    while months_after(first, window.lapses_after_months) < as_of:
        first += timedelta(days=1)
    return first
