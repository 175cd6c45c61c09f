"""A host's terms and trainees, as the host sees how they stand."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from app.clock import day_in
from app.storage.host_terms import Standing
from app.storage.hosts import Host
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.hosts import STANDING_WITH, at_once_text
from app.wording.languages import Language
from assessments.hours.company import observers_at_once
from assessments.hours.session import Session


@dataclass(frozen=True, slots=True)
class TraineeLine:
    """A trainee as one host sees them: `standing` is a code ("" where nothing was said), `words` say it with its day."""

    person_id: str
    name: str
    standing: str
    words: str
    last: str


def trainees_of(work: Work, host: Host, known: Iterable[str], zone: str, language: Language) -> tuple[TraineeLine, ...]:
    """Those who asked or came, who asks first on top, then by name."""
    last: dict[str, date] = {}
    for enrolment_id, session in (*work.ledger.waiting_for(host.id), *work.ledger.signed_by(host.id)):
        person = work.enrolments.by_id(enrolment_id).person_id
        last[person] = max(session.day, last.get(person, session.day))
    names, standings = work.people.names(), work.host_terms.standings_with(host.id)
    lines = [
        TraineeLine(
            one,
            names.get(one, ""),
            standings[one].standing if one in standings else "",
            _words(standings.get(one), zone, language),
            day_text(last[one], language.locale) if one in last else "",
        )
        for one in known
    ]
    return tuple(sorted(lines, key=lambda line: (line.standing != "asked", line.name)))


def crowds(work: Work, host: Host, waiting: Iterable[tuple[str, Session]], language: Language) -> dict[str, str]:
    """By session that waits: how many watched at once, in words, where it is more than the host takes."""
    terms = work.host_terms.of(host.id)
    if terms is None or terms.observers_most is None:
        return {}
    every = (*work.ledger.waiting_for(host.id), *work.ledger.signed_by(host.id))
    found = {}
    for enrolment_id, session in waiting:
        number = observers_at_once(session, [one for whose, one in every if whose != enrolment_id])
        if number > terms.observers_most:
            found[session.id] = at_once_text(number, terms.observers_most, language)
    return found


def _words(standing: Standing | None, zone: str, language: Language) -> str:
    if standing is None:
        return ""
    at = day_text(day_in(standing.since, zone), language.locale)
    return language(STANDING_WITH[standing.standing], at=at)
