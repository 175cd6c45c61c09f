"""Why a session can't be logged as it is typed. A rule is a function that yields faults; all are asked at once."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from assessments.hours.session import Session
from curriculum.faults import N_, Fault

DAY = 24 * 60
MOST_DAYS = 366


@dataclass(frozen=True, slots=True)
class Bounds:
    """What a session is held against: the moment of logging (school's own day and minute), enrolment, others."""

    today: date
    minute: int
    enrolled: date
    others: tuple[Session, ...] = ()


Rule = Callable[[Session, Bounds], Iterator[Fault]]


def ends_after_it_starts(session: Session, bounds: Bounds) -> Iterator[Fault]:
    if session.end <= session.start:
        yield Fault(
            "end-before-start", N_("the end is not after the start; sessions end on the day they began"), field="end"
        )
    elif session.minutes <= 0:
        yield Fault("all-break", N_("the breaks take up the whole session"), field="breaks")


def not_in_the_future(session: Session, bounds: Bounds) -> Iterator[Fault]:
    if session.day > bounds.today:
        yield Fault("future", N_("the day is in the future; log it when it has taken place"), field="day")
    elif session.timed and session.day == bounds.today and session.end > bounds.minute:
        yield Fault("future", N_("it has not ended yet; log it when it has taken place"), field="end")


def not_before_enrolment(session: Session, bounds: Bounds) -> Iterator[Fault]:
    if session.day < bounds.enrolled:
        sentence = N_("the day is before you were enrolled ({enrolled})")
        yield Fault("before-enrolment", sentence, {"enrolled": bounds.enrolled}, field="day")


def no_overlap(session: Session, bounds: Bounds) -> Iterator[Fault]:
    for other in bounds.others:
        apart = other.id == session.id or other.state == "withdrawn" or other.day != session.day
        timed = session.timed and other.timed
        if timed and not apart and session.start < other.end and other.start < session.end:
            times = {"start": clock_time(other.start), "end": clock_time(other.end)}
            yield Fault("overlap", N_("it overlaps a session you logged from {start} to {end}"), times, field="start")


def parts_fit(session: Session, bounds: Bounds) -> Iterator[Fault]:
    if not session.parts:
        yield Fault("no-part", N_("say what you did, in at least one part"), field="parts")
    total = sum(part.minutes for part in session.parts)
    if session.end > session.start and total > session.minutes > 0:
        values = {"total": total, "minutes": session.minutes}
        yield Fault(
            "parts-too-long", N_("the parts add up to {total} min, the session has {minutes}"), values, field="parts"
        )


def every_part_says_what(session: Session, bounds: Bounds) -> Iterator[Fault]:
    for place, part in enumerate(session.parts):
        if part.minutes <= 0:
            yield Fault("no-minutes", N_("how many minutes this part took"), field=f"minutes-{place}")
        if not part.activity:
            yield Fault("no-activity", N_("choose what you did"), field=f"activity-{place}")


def signed_by_somebody(session: Session, bounds: Bounds) -> Iterator[Fault]:
    if session.proof == "signature" and not session.host:
        yield Fault("no-host", N_("choose the host teacher who will sign"), field="host")


def took_time(session: Session, bounds: Bounds) -> Iterator[Fault]:
    if session.minutes <= 0:
        yield Fault("no-time", N_("say how long it took"), field="minutes")
    elif session.minutes > DAY * max(session.days, 1):
        yield Fault("too-long-for-days", N_("it is more time than its days have"), field="minutes")


def first_day_comes_first(session: Session, bounds: Bounds) -> Iterator[Fault]:
    if session.days < 1:
        yield Fault("ends-early", N_("the last day is before the first"), field="day")
    elif session.days > MOST_DAYS:
        sentence = N_("at most {most} days in one entry; split it")
        yield Fault("too-many-days", sentence, {"most": MOST_DAYS}, field="first")


RULES: tuple[Rule, ...] = (
    ends_after_it_starts,
    not_in_the_future,
    not_before_enrolment,
    no_overlap,
    parts_fit,
    every_part_says_what,
    signed_by_somebody,
)

# What the school keeps may have taken place before enrolment: then it is on record, and earns nothing.
KEPT_RULES: tuple[Rule, ...] = (first_day_comes_first, not_in_the_future, took_time, no_overlap)


def refusals(session: Session, bounds: Bounds, rules: Iterable[Rule] = RULES) -> tuple[Fault, ...]:
    """Every reason why this session can't be logged, in the order of the rules; none if it can."""
    return tuple(fault for rule in rules for fault in rule(session, bounds))


def clock_time(minute: int) -> str:
    """A minute of the day as 24-hour time: 570 is 09:30."""
    return f"{minute // 60:02}:{minute % 60:02}"
