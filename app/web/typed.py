"""What was typed into a form, read: days and times of day, or a fault at their field."""

from collections.abc import Mapping, Sequence
from datetime import date

from curriculum.faults import N_, Fault

LONGEST_NUMBER = 9


def typed_text(form: Mapping[str, Sequence[str]], name: str) -> str:
    """What was typed in a field, without blanks around it; empty if nothing was."""
    return form.get(name, [""])[0].strip()


def whole_number(text: str, otherwise: int = -1) -> int:
    """A number that a form carries unseen, such as a version; `otherwise` for what is none or far too long."""
    return int(text) if text.isdecimal() and len(text) < LONGEST_NUMBER else otherwise


WHOLE = N_("must be a whole number from {least} to {most}")


def typed_whole(text: str, field: str, least: int, most: int, faults: list[Fault]) -> int | None:
    """A whole number within bounds; None, and a fault, when it is none."""
    number = whole_number(text)
    if least <= number <= most:
        return number
    faults.append(Fault("not-whole", WHOLE, {"least": least, "most": most}, field))
    return None


def typed_number(text: str, otherwise: float | None = None) -> float | None:
    """A number with point or comma; `otherwise` for what is none, or endless, or far too large."""
    try:
        number = float(text.replace(",", "."))
    except ValueError:
        return otherwise
    return number if abs(number) < 10**LONGEST_NUMBER else otherwise


def minute_of_day(text: str) -> int:
    """Minutes since midnight of a time such as 09:30 (seconds may follow); ValueError when it is none."""
    hour, _, minute = text.partition(":")
    if not (hour.isdecimal() and minute[:2].isdecimal() and int(hour) < 24 and int(minute[:2]) < 60):
        raise ValueError(text)
    return int(hour) * 60 + int(minute[:2])


def typed_day(text: str, field: str, sentence: str, faults: list[Fault]) -> date | None:
    """A day as a browser sends it; None, and a fault, when it is none."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        faults.append(Fault("no-day", sentence, field=field))
        return None


def typed_minute(text: str, field: str, sentence: str, faults: list[Fault]) -> int | None:
    """Minutes since midnight; None, and a fault, when it is no time."""
    try:
        return minute_of_day(text)
    except ValueError:
        faults.append(Fault("no-time", sentence, field=field))
        return None
