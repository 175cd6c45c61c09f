"""What waits for one host's signature, as the host's page shows it; nothing else of the trainee."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.storage.hosts import Host
from app.storage.work import Work
from app.wording.dates import long_day
from app.wording.hours import hours
from app.wording.sessions import ACTIVITIES, APPARATUS, in_words
from assessments.hours.log_rules import clock_time
from assessments.hours.session import Part


@dataclass(frozen=True, slots=True)
class WaitingRow:
    """One session that waits; `key` names its version, so that a newer one is never signed unseen."""

    id: str
    key: str
    day: str
    trainee: str
    times: str
    length: str
    what: str
    reason: str


def waiting_rows(work: Work, host: Host, typed: Mapping[str, Sequence[str]], locale: str) -> list[WaitingRow]:
    """Sessions waiting for this host, oldest day first, with any reason already typed."""
    names = work.people.names()
    rows = []
    for enrolment_id, session in work.ledger.waiting_for(host.id):
        enrolment = work.enrolments.by_id(enrolment_id)
        what = "; ".join(_part(part) for part in session.parts)
        rows.append(
            WaitingRow(
                session.id,
                f"{session.id}:{session.version}",
                long_day(session.day, locale),
                names.get(enrolment.person_id, ""),
                f"{clock_time(session.start)}–{clock_time(session.end)}",
                hours(session.minutes),
                what,
                typed.get(f"reason-{session.id}", [""])[0],
            )
        )
    return rows


def _part(part: Part) -> str:
    activity = in_words(part.activity, ACTIVITIES)
    return f"{activity}, {in_words(part.apparatus, APPARATUS).lower()}" if part.apparatus else activity
