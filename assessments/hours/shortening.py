"""A host teacher makes a session shorter: the same session with less time, or why it can't be that."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from assessments.hours.log_rules import Bounds, clock_time, ends_after_it_starts, parts_fit, refusals
from assessments.hours.session import Part, Session
from curriculum.faults import N_, Fault


@dataclass(frozen=True, slots=True)
class Shorter:
    """What the host says of the time: minutes of the day, minutes of breaks, and of each part.

    `parts` is empty where the session has one part: it lasts as long as it did, or as its session now does.
    """

    start: int
    end: int
    breaks: int = 0
    parts: tuple[int, ...] = ()


def shortened(session: Session, wish: Shorter) -> Session:
    """The session as the host says it was, as a further version; parts that took no time are gone."""
    whole = replace(session, start=wish.start, end=wish.end, breaks=wish.breaks, version=session.version + 1)
    minutes = wish.parts or (min(session.parts[0].minutes, whole.minutes),)
    parts = tuple(_part(part, left) for part, left in zip(session.parts, minutes, strict=True) if left > 0)
    return replace(whole, parts=parts)


def why_not_shorter(session: Session, wish: Shorter) -> tuple[Fault, ...]:
    """Every reason why a session can't be made that short; none if it can."""
    bounds, after = Bounds(session.day, session.end, session.day), shortened(session, wish)
    no_time = tuple(refusals(after, bounds, (ends_after_it_starts,)))
    return (*no_time, *_within(session, wish), *(() if no_time else _too_long(session, wish, after)))


def _too_long(session: Session, wish: Shorter, after: Session) -> Iterator[Fault]:
    if after.minutes >= session.minutes:
        yield Fault("no-shorter", N_("this is no shorter than what was put down; sign it as it is"), field="end")
    for place, (part, left) in enumerate(zip(session.parts, wish.parts, strict=False)):
        if left > part.minutes:
            sentence = N_("this part can be {most} min at most, as it was put down")
            yield Fault("part-longer", sentence, {"most": part.minutes}, field=f"minutes-{place}")
    if after.parts:
        yield from parts_fit(after, Bounds(session.day, session.end, session.day))
    else:
        yield Fault("nothing-left", N_("nothing would be left; then send it back instead"), field="parts")


def _within(session: Session, wish: Shorter) -> Iterator[Fault]:
    if wish.start < session.start or wish.end > session.end:
        times = {"start": clock_time(session.start), "end": clock_time(session.end)}
        field = "start" if wish.start < session.start else "end"
        yield Fault("longer", N_("it can only get shorter, between {start} and {end}"), times, field=field)


def _part(part: Part, minutes: int) -> Part:
    return replace(part, minutes=minutes)
