"""What time it is: a function, so that tests and the demo can say otherwise."""

from collections.abc import Callable
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

Clock = Callable[[], datetime]


def system_clock() -> datetime:
    """Now, in UTC."""
    return datetime.now(UTC)


def day_in(moment: datetime, zone: str) -> date:
    """The calendar day of a moment in a named time zone."""
    return moment.astimezone(ZoneInfo(zone)).date()
