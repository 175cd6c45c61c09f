"""What a host teacher gave to a school's trainees: time with them in the room, each lesson once however many watched."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assessments.hours.session import Session


@dataclass(frozen=True, slots=True)
class Mentoring:
    """`minutes` is the host's own time, `trainee_minutes` that of all trainees together, `by_activity` of it.

    `sessions` and `trainees` count what was signed, whatever was done.
    """

    minutes: int
    trainee_minutes: int
    by_activity: Mapping[str, int]
    sessions: int
    trainees: int


def mentoring(signed: Iterable[tuple[str, Session]]) -> Mentoring:
    """Of sessions that stand signed, each with whose it is.

    What was only watched as a recording is in nobody's room: it is counted as signed, and takes none of the host's time.
    """
    found = list(signed)
    by_activity: dict[str, int] = defaultdict(int)
    for _, session in found:
        for part in session.parts:
            by_activity[part.activity] += part.minutes
    present = [session for _, session in found if any(part.mode != "recorded" for part in session.parts)]
    trainees = {whose for whose, _ in found}
    return Mentoring(
        _own_minutes(present), sum(by_activity.values()), dict(by_activity), len(found), len(trainees)
    )  # fmt: skip


def _own_minutes(sessions: list[Session]) -> int:
    """Sessions that overlap are one stretch of time, less what all of them call a break."""
    total = stretch = together = end = 0
    day = None
    for session in sorted(sessions, key=lambda one: (one.day, one.start, one.end)):
        if session.day != day or session.start >= end:
            total += min(stretch, together)
            stretch, together, day, end = 0, 0, session.day, session.start
        stretch += max(0, session.end - max(end, session.start))
        together += session.minutes
        end = max(end, session.end)
    return total + min(stretch, together)
