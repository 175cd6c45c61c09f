"""What an entry earns if it is wholly credited to a category, or why it earns nothing there."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from assessments.hours.calendar import lapse_day, window_end
from assessments.hours.clauses import Clauses
from assessments.hours.entry import Entry, Facts
from assessments.hours.gates import Masked, opening
from curriculum.requirements.requirement_set import Category

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

    minutes: Mapping[str, Fraction | int]
    reasons: Mapping[str, str]


def dates_of(
    clauses: Clauses,
    entries: Sequence[Masked],
    facts: Facts,
    as_of: date,
    enrolled: date | None,
) -> Dates:
    """The window, the lapse and the opening of every gate, by category; entries come with their masks, in (date, id) order."""
    requirements = clauses.requirements
    end = window_end(requirements.window, enrolled, facts, as_of) if enrolled else None
    within = entries if end is None else [one for one in entries if enrolled <= one[0].date <= end]
    opened: dict[str, date | None] = {}
    for gate in requirements.gates:
        day = opening(gate, clauses, within, facts)
        earlier = opened.get(gate.category, EARLIEST)
        opened[gate.category] = None if day is None or earlier is None else max(day, earlier)
    return Dates(as_of, enrolled, end, lapse_day(requirements.window, as_of), opened)


class Earning:
    """What each entry earns, worked out once for all that are alike."""

    def __init__(self, clauses: Clauses, dates: Dates):
        self.dates = dates
        categories = clauses.requirements.categories
        self.accepting = [(one, clauses.bit(one.accepts)) for one in categories]
        asked = [one.accepts for one in categories]
        asked += [weight.accepts for one in categories for weight in one.credit.weights]
        self.asked = 0
        for accepts in asked:
            self.asked |= clauses.bit(accepts)
        self.known: dict[tuple, Earned] = {}
        self.days: dict[date, tuple[str, tuple[str, ...]]] = {}

    def of(self, entry: Entry, mask: int) -> Earned:
        """Credit, or the reason for none, in every category that accepts the entry."""
        mask &= self.asked
        day = self.days.get(entry.date)
        if day is None:
            day = self.days[entry.date] = self._day(entry.date)
        key = (mask, entry.state, entry.minutes, day)
        found = self.known.get(key)
        if found is None:
            found = self.known[key] = self._earned(entry, mask, *day)
        return found

    def _day(self, day: date) -> tuple[str, tuple[str, ...]]:
        """Why a day counts nowhere, if it does not, and the categories whose gates are shut on it."""
        shut = (name for name, opened in self.dates.gates.items() if opened is None or day < opened)
        return _outside(day, self.dates), tuple(shut)

    def _earned(self, entry: Entry, mask: int, outside: str, shut: tuple[str, ...]) -> Earned:
        minutes, reasons = {}, {}
        for category, bit in self.accepting:
            if not mask & bit:
                continue
            reason = _proof(entry, category) or outside or ("before_gate" if category.id in shut else "")
            credit = Fraction(0) if reason else credited(entry, category)
            if credit > 0:
                minutes[category.id] = credit.numerator if credit.denominator == 1 else credit
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


def _proof(entry: Entry, category: Category) -> str:
    if entry.state in category.counts:
        return ""
    proof = entry.state in ("signed_off", "attested", "registered", "accepted")
    return "proof_not_accepted" if proof else entry.state


def _outside(day: date, dates: Dates) -> str:
    if day > dates.as_of:
        return "after_as_of"
    if dates.end is not None and dates.enrolled and day < dates.enrolled:
        return "before_enrolment"
    if dates.end and day > dates.end:
        return "after_window"
    return "lapsed" if dates.lapsed_before and day < dates.lapsed_before else ""
