"""How many trainees watch one teacher at the same time."""

from collections.abc import Iterable

from assessments.hours.session import Session


def observers_at_once(session: Session, others: Iterable[Session]) -> int:
    """The most who watch at any moment of this session, its own trainee among them; 0 where nobody watches in it.

    `others` are sessions of other trainees with the same host; only observing in the room counts.
    """
    if not _observes(session):
        return 0
    beside = [one for one in others if _observes(one) and one.day == session.day]
    beside = [one for one in beside if one.start < session.end and session.start < one.end]
    moments = [session.start, *(one.start for one in beside if one.start > session.start)]
    return 1 + max(sum(one.start <= moment < one.end for one in beside) for moment in moments)


def _observes(session: Session) -> bool:
    return any(part.activity == "observation" and part.mode == "live" for part in session.parts)
