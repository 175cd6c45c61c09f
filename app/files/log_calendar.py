"""The hour log as a calendar: iCalendar, RFC 5545, one event for each session, its times in UTC."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

# RFC 5545 section 3.1: a line is at most 75 octets, its break not counted.
LONGEST_LINE = 75


@dataclass(frozen=True, slots=True)
class CalendarEvent:
    """`first` and `last` are moments, or days (both counted) for what has no times."""

    id: str
    first: datetime | date
    last: datetime | date
    summary: str
    description: str = ""
    location: str = ""
    cancelled: bool = False


def log_calendar(events: Sequence[CalendarEvent], name: str, made_at: datetime) -> bytes:
    """The calendar; `made_at` is a moment with its zone."""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Throughline//Hour log//EN",
        "CALSCALE:GREGORIAN",
        f"X-WR-CALNAME:{escaped(name)}",
        *(line for event in events for line in _event(event, made_at)),
        "END:VCALENDAR",
    ]
    return b"".join(part + b"\r\n" for line in lines for part in folded(line))


def escaped(text: str) -> str:
    """A value of type TEXT (section 3.3.11), without other control characters."""
    for letter, written in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\r\n", "\\n"), ("\n", "\\n")):
        text = text.replace(letter, written)
    return "".join(one for one in text if one >= " " and one != "\x7f").encode("utf-8", "replace").decode()


def folded(line: str) -> Iterator[bytes]:
    """The line in pieces of at most 75 octets, never inside a character (section 3.1)."""
    piece, room = b"", LONGEST_LINE
    for letter in line:
        octets = letter.encode()
        if len(piece) + len(octets) > room:
            yield piece
            piece, room = b" ", LONGEST_LINE
        piece += octets
    yield piece


def _event(event: CalendarEvent, made_at: datetime) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{escaped(event.id)}"
    yield f"DTSTAMP:{_moment(made_at)}"
    if isinstance(event.first, datetime):
        yield f"DTSTART:{_moment(event.first)}"
        yield f"DTEND:{_moment(event.last)}"
    else:
        yield f"DTSTART;VALUE=DATE:{event.first:%Y%m%d}"
        yield f"DTEND;VALUE=DATE:{event.last + timedelta(days=1):%Y%m%d}"
    yield f"SUMMARY:{escaped(event.summary)}"
    for name, text in (("DESCRIPTION", event.description), ("LOCATION", event.location)):
        if text:
            yield f"{name}:{escaped(text)}"
    yield f"STATUS:{'CANCELLED' if event.cancelled else 'CONFIRMED'}"
    yield "TRANSP:OPAQUE"
    yield "END:VEVENT"


def _moment(moment: datetime) -> str:
    return moment.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
