"""Faults in the reader's language: the sentence, and what fills it, as people of that language write it."""

from collections.abc import Mapping
from datetime import date

from app.wording.dates import clock_text, day_text
from app.wording.hours import REASONS, hours
from app.wording.languages import Language
from app.wording.practicals import RECOMMENDATIONS, VOID_CAUSES
from curriculum.faults import Fault

# Values of faults that are codes, by the fault's code and the value's name.
WORDS: Mapping[tuple[str, str], Mapping[str, str]] = {
    ("still-open", "next"): RECOMMENDATIONS,
    ("void-cause", "causes"): VOID_CAUSES,
    ("earns-nothing", "why"): REASONS,
}
TIMES = (("overlap", "start"), ("overlap", "end"))
LENGTHS = (("earns-nothing", "time"),)


def fault_text(fault: Fault, language: Language) -> str:
    """What is wrong and what is allowed."""
    shown = {key: _shown(fault, key, value, language) for key, value in fault.values.items()}
    return language(fault.sentence, **shown)


def fault_line(fault: Fault, language: Language) -> str:
    """The fault with its place before it: file and line, then the field."""
    place = ":".join(str(part) for part in (fault.source, fault.line) if part not in ("", None))
    return ": ".join(part for part in (place, fault.field, fault_text(fault, language)) if part)


def _shown(fault: Fault, key: str, value: object, language: Language) -> object:
    place = (fault.code, key)
    if place in WORDS:
        codes = str(value).split(", ")
        return language.listed([language(WORDS[place][code]) for code in codes])
    if place in TIMES:
        hour, minute = str(value).split(":")
        return clock_text(int(hour) * 60 + int(minute), language.locale)
    if place in LENGTHS:
        return hours(value, language)
    if isinstance(value, date):
        return day_text(value, language.locale)
    if isinstance(value, int | float) and f"{{{key}}}" in fault.sentence:
        return language.figure(value)
    return value
