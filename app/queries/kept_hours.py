"""Hours that the school keeps: by whom they were taken, on what evidence, and what happened to them since."""

from dataclasses import dataclass
from datetime import date

from app.queries.criteria import fact_titles
from app.queries.hours import ShownSession, kept_texts, shown_session
from app.queries.standing import standing_of
from app.queries.trainee_record import event_text
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.wording.asides import asides_by_session
from app.wording.dates import day_text, long_day, moment_text
from app.wording.languages import Language
from assessments.hours.session import Session
from curriculum.faults import NotFoundError


@dataclass(frozen=True, slots=True)
class KeptOverview:
    """Hours the school keeps; `events` are (moment, who, what), oldest first."""

    name: str
    session: Session
    shown: ShownSession
    day: str
    evidence: str
    events: tuple[tuple[str, str, str], ...]
    can_change: bool


def kept_overview(  # noqa: PLR0913 - whose, which, and how it is shown
    work: Work, enrolment: Enrolment, session_id: str, today: date, zone: str, language: Language
) -> KeptOverview:
    """Hours of an enrolment that the school keeps; `NotFoundError` where there are none, or a host signs them."""
    session, held = work.ledger.now(session_id), work.ledger.evidence_of(enrolment.id)
    if session is None or session_id not in held:
        raise NotFoundError
    names, hosts = work.people.names(), {host.id: host.name for host in work.hosts.all()}
    requirements, standing = standing_of(work, enrolment, today)
    asides = asides_by_session(requirements, standing, language, fact_titles(work))[session_id]
    day = day_text(session.day, language.locale)
    events = tuple(
        (moment_text(one.at, zone, language.locale), names.get(one.actor, ""), event_text(one, day, {}, language))
        for one in work.record.of_subject(session_id)
    )
    kept = kept_texts(work, enrolment.id, language)[session_id]
    return KeptOverview(
        names[enrolment.person_id],
        session,
        shown_session(session, hosts, asides, language, kept),
        long_day(session.day, language.locale),
        held[session_id][0],
        events,
        session.state != "withdrawn",
    )
