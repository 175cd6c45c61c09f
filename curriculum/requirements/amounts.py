"""Durations and percentages as a requirement set writes them: `100 h`, `90 min`, `25 %`, `30 % of total`."""

import re
from dataclasses import dataclass
from fractions import Fraction

DURATION = re.compile(r"(?:([0-9]{1,7}(?:\.[0-9]{1,6})?)\s*h)?\s*(?:([0-9]{1,7})\s*min)?", re.IGNORECASE)
PERCENTAGE = re.compile(r"([0-9]{1,6}(?:\.[0-9]{1,6})?)\s*%(?:\s+of\s+(\S+))?", re.IGNORECASE)
ID = re.compile(r"\w[\w.-]{0,63}")
CREDITED = "credited"


@dataclass(frozen=True, slots=True)
class Share:
    """A part of something: `part` is 1/4 for 25 %; `of` is "" (the category's own `at_least`),
    "credited" (what is credited there in the end), or the id of a category or a total.
    """

    part: Fraction
    of: str = ""


Amount = Fraction | Share


def duration(text: str, unit: int) -> Fraction | None:
    """Whole minutes of a duration, `h` being `unit` minutes; None if it is not a duration."""
    match = DURATION.fullmatch(text.strip())
    if match is None or match.group(0).strip() == "":
        return None
    hours, minutes = match.groups()
    total = Fraction(hours or 0) * unit + Fraction(minutes or 0)
    return total if total.denominator == 1 else None


def share(text: str) -> Share | None:
    """A percentage, plain or of something; None if it is not one."""
    match = PERCENTAGE.fullmatch(text.strip())
    if match is None:
        return None
    return Share(Fraction(match.group(1)) / 100, match.group(2) or "")
