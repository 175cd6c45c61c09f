"""Days and times of day as people of a language write them."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from babel.dates import format_date, format_datetime


def day_text(day: date, locale: str) -> str:
    """A day with its month in letters: 2 Mar 2026."""
    return format_date(day, "medium", locale=locale)


def long_day(day: date, locale: str) -> str:
    """A day with its weekday."""
    return format_date(day, "full", locale=locale)


def moment_text(moment: datetime, zone: str, locale: str) -> str:
    """A moment in the school's own time."""
    return format_datetime(moment, "medium", tzinfo=ZoneInfo(zone), locale=locale)
