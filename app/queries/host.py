"""What waits for one host's signature, as the host's page shows it; nothing else of the trainee."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.queries.host_terms import crowds
from app.storage.hosts import Host
from app.storage.work import Work
from app.wording.dates import long_day, times_text
from app.wording.hours import hours
from app.wording.languages import Language
from app.wording.sessions import STATES, part_text, parts_text
from assessments.hours.session import Session
from curriculum.faults import N_


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
    crowd: str


def waiting_rows(work: Work, host: Host, typed: Mapping[str, Sequence[str]], language: Language) -> list[WaitingRow]:
    """Sessions waiting for this host, oldest day first, with any reason already typed."""
    names = work.people.names()
    waiting, rows = work.ledger.waiting_for(host.id), []
    crowd = crowds(work, host, waiting, language)
    for enrolment_id, session in waiting:
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
                crowd.get(session.id, ""),
            )
        )
    return rows


@dataclass(frozen=True, slots=True)
class HostSession:
    """One session as its host sees it; `parts` are what was done, in order, `waits` whether it can be decided."""

    session: Session
    trainee: str
    day: str
    times: str
    state: str
    state_kind: str
    facts: tuple[tuple[str, str], ...]
    parts: tuple[str, ...]
    waits: bool


def host_session(work: Work, session: Session, language: Language) -> HostSession:
    """What a host is told of one session: what they vouch for, and nothing else of the trainee."""
    enrolment = work.enrolments.by_id(work.ledger.enrolment_of(session.id))
    words, kind = STATES[session.state]
    facts = [
        (language(N_("What")), parts_text(session.parts, language)),
        (language(N_("Length")), hours(session.minutes, language)),
    ]
    facts += [(language(N_("Breaks")), hours(session.breaks, language))] if session.breaks else []
    return HostSession(
        session,
        work.people.names().get(enrolment.person_id, ""),
        long_day(session.day, language.locale),
        times_text(session.start, session.end, language),
        language(words),
        kind,
        tuple(facts),
        tuple(part_text(part, language) for part in session.parts),
        session.state == "waiting",
    )
