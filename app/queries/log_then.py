"""The log of an enrolment as it stood at a moment: from the versions logged by then, and what was decided by then."""

from dataclasses import replace
from datetime import datetime

from app.storage.work import Work
from assessments.hours.session import STATE_OF_PROOF, Session, after

WITHDRAWN = "session-withdrawn"


def log_then(work: Work, enrolment_id: str, at: datetime) -> tuple[tuple[Session, ...], tuple[str, ...]]:
    """The sessions as they stood at `at`, in (day, id) order, and the ids of those that changed since."""
    now = {one.id: one for one in work.ledger.of_enrolment(enrolment_id)}
    changed = work.ledger.changed_since(enrolment_id, at)
    for session_id, versions in changed.items():
        by_then = [version for version, logged_at in versions if logged_at <= at]
        del now[session_id]
        if by_then:
            now[session_id] = _as_it_stood(work, session_id, max(by_then), at)
    return tuple(sorted(now.values(), key=lambda one: (one.day, one.id))), tuple(changed)


def _as_it_stood(work: Work, session_id: str, version: int, at: datetime) -> Session:
    session, _ = work.ledger.logged(session_id, version)
    return replace(session, state=_state(work, session, at))


def _state(work: Work, session: Session, at: datetime) -> str:
    events = (one for one in work.record.of_subject(session.id) if one.kind == WITHDRAWN and one.at <= at)
    if any(one.body.get("version") == session.version for one in events):
        return "withdrawn"
    decided = [one for one in work.hosts.decisions(session.id) if one.version == session.version]
    if decided and decided[0].decided_at <= at:
        return "signed_off" if decided[0].decision == "signed_off" else "sent_back"
    state = STATE_OF_PROOF[session.proof]
    return after(state, "send") or state
