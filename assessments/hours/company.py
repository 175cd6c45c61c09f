"""How many trainees watch one teacher at the same time."""

from collections.abc import Iterable

from assessments.hours.session import Session


def observers_at_once(session: Session, others: Iterable[Session]) -> int:
    """The most who watch at any moment of this session, its own trainee among them; 0 where nobody watches in it.

    `others` are sessions of other trainees with the same host; only observing in the room counts.
    """
    if not _observes(session):
        return 0
    beside = [(one.start, one.end) for one in others if _observes(one) and one.day == session.day]
    return 1 + most_beside(session.start, session.end, beside)


def most_beside(start: int, end: int, others: Iterable[tuple[int, int]]) -> int:
    """How many of the others (from, to: minutes of the same day) are there at once, at most, between `start` and `end`."""
    beside = [(one, until) for one, until in others if one < end and start < until]
    moments = [start, *(one for one, _ in beside if one > start)]
    return max(sum(one <= moment < until for one, until in beside) for moment in moments)


def _observes(session: Session) -> bool:
    return any(part.activity == "observation" and part.mode == "live" for part in session.parts)
