"""What waits for one host's signature, as the host's page shows it; nothing else of the trainee."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.storage.hosts import Host
from app.storage.work import Work
from app.wording.dates import long_day, times_text
from app.wording.hours import hours
from app.wording.languages import Language
from app.wording.sessions import parts_text


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


def waiting_rows(work: Work, host: Host, typed: Mapping[str, Sequence[str]], language: Language) -> list[WaitingRow]:
    """Sessions waiting for this host, oldest day first, with any reason already typed."""
    names = work.people.names()
    rows = []
    for enrolment_id, session in work.ledger.waiting_for(host.id):
        enrolment = work.enrolments.by_id(enrolment_id)
        rows.append(
            WaitingRow(
                session.id,
                f"{session.id}:{session.version}",
                long_day(session.day, language.locale),
                names.get(enrolment.person_id, ""),
                times_text(session.start, session.end, language),
                hours(session.minutes, language),
                parts_text(session.parts, language),
                typed.get(f"reason-{session.id}", [""])[0],
            )
        )
    return rows
