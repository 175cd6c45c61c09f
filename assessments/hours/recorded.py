"""What the record holds of one version of a session, so that the ledger can be held against it."""

from assessments.hours.log_rules import clock_time
from assessments.hours.session import Part, Session

OF_PART = ("minutes", "activity", "apparatus", "level", "mode", "client")


def version_body(
    session: Session, enrolment_id: str, evidence: str = "", note: str = "", reason: str = ""
) -> dict[str, object]:
    """The body of the event that writes a version; `note` is the hash of personal text."""
    return {
        "session": session.id,
        "version": session.version,
        "enrolment": enrolment_id,
        "day": session.day.isoformat(),
        "start": clock_time(session.start),
        "end": clock_time(session.end),
        "breaks": session.breaks,
        "first": session.first.isoformat() if session.first else "",
        "reason": reason,
        "host": session.host,
        "proof": session.proof,
        "state": session.state,
        "site": session.site,
        "setting": session.setting,
        "note": note,
        "evidence": evidence,
        "parts": [_part(part) for part in session.parts],
    }


def _part(part: Part) -> dict[str, object]:
    return {name: getattr(part, name) for name in OF_PART} | {"more": dict(part.more)}
