"""Why a host can't sign a session: too late, too much at once, more than their day had. A rule is a function of faults."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from assessments.hours.session import Session
from curriculum.faults import N_, Fault
from curriculum.requirements.requirement_set import Signing


@dataclass(frozen=True, slots=True)
class SigningBounds:
    """What a signature is held against: its day, what is signed at once of the same trainee, and what the host has
    signed or signs now of the session's own day; both hold the session itself."""

    today: date
    at_once: tuple[Session, ...]
    of_day: tuple[Session, ...]


Rule = Callable[[Session, Signing, SigningBounds], Iterator[Fault]]


def within_the_days(session: Session, signing: Signing, bounds: SigningBounds) -> Iterator[Fault]:
    if signing.within_days is None:
        return
    last = session.day + timedelta(days=signing.within_days)
    if bounds.today > last:
        sentence = N_("the session of {day} could be signed until {last}; the trainee can ask the school to accept it")
        yield Fault("signed-late", sentence, {"day": session.day, "last": last})


def no_block_too_large(session: Session, signing: Signing, bounds: SigningBounds) -> Iterator[Fault]:
    total = sum(one.minutes for one in bounds.at_once)
    if signing.at_once is not None and total > signing.at_once:
        sentence = N_(
            "at most {most} min of one trainee are signed at once, these are {total}; sign them in smaller parts"
        )
        yield Fault("too-much-at-once", sentence, {"most": int(signing.at_once), "total": total})


def no_day_too_long(session: Session, signing: Signing, bounds: SigningBounds) -> Iterator[Fault]:
    total = taught_minutes(bounds.of_day)
    if signing.host_day is not None and total > signing.host_day:
        sentence = N_("that would make {total} min signed by you of {day}; at most {most} are signed of one day")
        yield Fault("day-too-long", sentence, {"total": total, "day": session.day, "most": int(signing.host_day)})


RULES: tuple[Rule, ...] = (within_the_days, no_block_too_large, no_day_too_long)


def signing_refusals(
    session: Session, signing: Signing, bounds: SigningBounds, rules: Iterable[Rule] = RULES
) -> tuple[Fault, ...]:
    """Every reason why this session can't be signed, in the order of the rules; none if it can."""
    return tuple(fault for rule in rules for fault in rule(session, signing, bounds))


def taught_minutes(sessions: Iterable[Session]) -> int:
    """The minutes of a day that lie in any of its sessions, each counted once."""
    total, reached = 0, 0
    for one in sorted(sessions, key=lambda each: (each.start, each.end)):
        total += max(0, one.end - max(one.start, reached))
        reached = max(reached, one.end)
    return total
