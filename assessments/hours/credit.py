"""What an entry earns if it is wholly credited to a category, or why it earns nothing there."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from assessments.hours.calendar import lapse_day, window_end
from assessments.hours.entry import Entry, Facts
from assessments.hours.gates import opening
from curriculum.requirements.requirement_set import Category, RequirementSet

EARLIEST = date.min


@dataclass(frozen=True, slots=True)
class Dates:
    """The days between which entries count; `end` is None where no window is applied."""

    as_of: date
    enrolled: date | None
    end: date | None
    lapsed_before: date | None
    gates: Mapping[str, date | None]


@dataclass(frozen=True, slots=True)
class Earned:
    """`minutes` of credit by category; `reason` by category that accepts the entry but gives nothing."""

    minutes: Mapping[str, Fraction]
    reasons: Mapping[str, str]


def dates_of(
    requirements: RequirementSet,
    entries: tuple[Entry, ...],
    facts: Facts,
    as_of: date,
    enrolled: date | None,
) -> Dates:
    """The window, the lapse and the opening of every gate, by category."""
    end = window_end(requirements.window, enrolled, facts, as_of) if enrolled else None
    within = [one for one in entries if end is None or enrolled <= one.date <= end]
    opened: dict[str, date | None] = {}
    for gate in requirements.gates:
        day = opening(gate, requirements, within, facts)
        earlier = opened.get(gate.category, EARLIEST)
        opened[gate.category] = None if day is None or earlier is None else max(day, earlier)
    return Dates(as_of, enrolled, end, lapse_day(requirements.window, as_of), opened)


def earned(entry: Entry, requirements: RequirementSet, dates: Dates) -> Earned:
    """Credit, or the reason for none, in every category that accepts the entry."""
    minutes, reasons = {}, {}
    for category in requirements.categories:
        if not entry.matches(category.accepts):
            continue
        reason = _reason(entry, category, dates)
        credit = Fraction(0) if reason else credited(entry, category)
        if credit > 0:
            minutes[category.id] = credit
        else:
            reasons[category.id] = reason or _shrunk(entry, category)
    return Earned(minutes, reasons)


def credited(entry: Entry, category: Category) -> Fraction:
    """The entry's minutes after session lines, rounding down and weight."""
    weight = _weight(entry, category)
    return _whole(entry, category) if weight == 1 else _whole(entry, category) * weight


def _whole(entry: Entry, category: Category) -> Fraction:
    minutes = Fraction(entry.minutes)
    for line in category.credit.sessions:
        if line.least <= minutes and (line.most is None or minutes <= line.most):
            minutes = line.counts_as
            break
    step = category.credit.round_down_to
    return minutes // step * step if step else minutes


def _weight(entry: Entry, category: Category) -> Fraction:
    return next(
        (one.part for one in category.credit.weights if entry.matches(one.accepts)),
        Fraction(1),
    )


def _shrunk(entry: Entry, category: Category) -> str:
    return "weighted" if _whole(entry, category) > 0 else "rounded_down"


def conversion_reason(entry: Entry, category: Category) -> str:
    """Why wholly credited minutes are fewer than logged."""
    return "weighted" if _weight(entry, category) < 1 else "rounded_down"


def _reason(entry: Entry, category: Category, dates: Dates) -> str:
    if entry.state not in category.counts:
        proof = entry.state in ("signed_off", "attested", "registered", "accepted")
        return "proof_not_accepted" if proof else entry.state
    if entry.date > dates.as_of:
        return "after_as_of"
    if dates.enrolled and entry.date < dates.enrolled and dates.end is not None:
        return "before_enrolment"
    if dates.end and entry.date > dates.end:
        return "after_window"
    if dates.lapsed_before and entry.date < dates.lapsed_before:
        return "lapsed"
    opened = dates.gates.get(category.id, EARLIEST)
    return "before_gate" if opened is None or entry.date < opened else ""
