"""Days and times of day as people of a language write them."""

from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from babel.dates import format_date, format_datetime, format_skeleton, format_time

from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_


def day_text(day: date, locale: str) -> str:
    """A day with its month in letters: 2 Mar 2026."""
    return format_date(day, "medium", locale=locale)


def month_text(day: date, locale: str) -> str:
    """The month of a day: Mar 2026."""
    return format_skeleton("yMMM", day, locale=locale)


def long_day(day: date, locale: str) -> str:
    """A day with its weekday."""
    return format_date(day, "full", locale=locale)


def moment_text(moment: datetime, zone: str, locale: str) -> str:
    """A moment in the school's own time."""
    return format_datetime(moment, "medium", tzinfo=ZoneInfo(zone), locale=locale)


def clock_text(minute: int, locale: str) -> str:
    """A time of day, given in minutes since midnight; midnight at the day's end is midnight."""
    return format_time(time(minute // 60 % 24, minute % 60), "short", locale=locale)


def times_text(start: int, end: int, language: Language = ENGLISH) -> str:
    """From when to when on one day."""
    first, last = clock_text(start, language.locale), clock_text(end, language.locale)
    return language(N_("{start}–{end}"), start=first, end=last)
