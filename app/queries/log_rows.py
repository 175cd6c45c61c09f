"""The hour log as rows, one for each part of a session, for files that leave the school."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from app.storage.enrolments import Enrolment
from app.storage.work import Work
from assessments.hours.log_rules import clock_time
from assessments.hours.session import Part, Session

# The first six are those that `throughline hours assess` reads; further fields of parts follow.
COLUMNS = (
    "trainee", "id", "date", "minutes", "activity", "state", "session", "start", "end", "first_day", "host", "site",
    "setting", "apparatus", "level", "mode", "client", "signed_at", "receipt", "evidence",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class LoggedSession:
    """A session as it leaves the school. `begins` and `ends` are moments, None where only its length is known."""

    trainee: str
    session: Session
    host: str
    begins: datetime | None
    ends: datetime | None
    signed_at: datetime | None = None
    receipt: str = ""
    evidence: str = ""


def logged_sessions(work: Work, enrolments: list[Enrolment], zone: str) -> list[LoggedSession]:
    """Every session of these enrolments as it stands, withdrawn ones too, by trainee, then in (day, id) order."""
    names, hosts = work.people.names(), {host.id: host.name for host in work.hosts.all()}
    signed = {(one.session_id, one.version): one for one in work.hosts.signatures()}
    found = []
    for enrolment in enrolments:
        evidence = work.ledger.evidence_of(enrolment.id)
        for session in work.ledger.of_enrolment(enrolment.id):
            decision = signed.get((session.id, session.version))
            begins, ends = _moments(session, ZoneInfo(zone))
            found.append(
                LoggedSession(
                    names[enrolment.person_id],
                    session,
                    hosts.get(session.host, ""),
                    begins,
                    ends,
                    decision.decided_at if decision else None,
                    decision.receipt if decision else "",
                    evidence[session.id][0] if session.id in evidence else "",
                )
            )
    return found


def log_table(sessions: list[LoggedSession]) -> tuple[tuple[str, ...], list[dict[str, object]]]:
    """The columns and a row for each part; minutes are whole numbers, days are dates, everything else is text."""
    rows = [_row(one, place, part) for one in sessions for place, part in enumerate(one.session.parts, start=1)]
    further = sorted({name for row in rows for name in row} - set(COLUMNS))
    return (*COLUMNS, *further), rows


def _moments(session: Session, zone: ZoneInfo) -> tuple[datetime | None, datetime | None]:
    if not session.timed or session.days > 1:
        return None, None
    midnight = datetime(session.day.year, session.day.month, session.day.day)
    first, last = (midnight + timedelta(minutes=minute) for minute in (session.start, session.end))
    return first.replace(tzinfo=zone), last.replace(tzinfo=zone)


def _row(one: LoggedSession, place: int, part: Part) -> dict[str, object]:
    session = one.session
    first: date | str = session.first or ""
    return dict(part.more) | {
        "trainee": one.trainee,
        "id": f"{session.id}/{place}",
        "date": session.day,
        "minutes": part.minutes,
        "activity": part.activity,
        "state": session.state,
        "session": session.id,
        "start": clock_time(session.start) if one.begins else "",
        "end": clock_time(session.end) if one.ends else "",
        "first_day": first,
        "host": one.host,
        "site": session.site,
        "setting": session.setting,
        "apparatus": part.apparatus,
        "level": part.level,
        "mode": part.mode,
        "client": part.client,
        "signed_at": one.signed_at.strftime("%Y-%m-%dT%H:%M:%SZ") if one.signed_at else "",
        "receipt": one.receipt,
        "evidence": one.evidence,
    }
