"""Hosts and trainees as each sees how they stand: a host's terms and trainees, and the hosts a trainee may choose."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from app.clock import day_in
from app.storage.host_terms import Standing, Terms
from app.storage.hosts import Host
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.hosts import LEVELS, STANDING_WITH, at_once_text
from app.wording.languages import Language
from app.wording.sessions import in_words
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


@dataclass(frozen=True, slots=True)
class HostChoice:
    """A host as one trainee sees them; `may_ask` where they want to be asked first and were not yet."""

    id: str
    name: str
    site: str
    level: str
    observers: str
    words: str
    standing: str
    may_ask: bool


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


def host_choices(work: Work, person_id: str, today: date, zone: str, language: Language) -> tuple[HostChoice, ...]:
    """Every host on offer today, by name."""
    terms, standings = work.host_terms.all(), work.host_terms.standings_of(person_id)
    return tuple(
        _choice(host, terms.get(host.id), standings.get(host.id), zone, language)
        for host in work.hosts.all()
        if host.offered_on(today)
    )


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


def _choice(host: Host, terms: Terms | None, standing: Standing | None, zone: str, language: Language) -> HostChoice:
    most = terms.observers_most if terms else None
    return HostChoice(
        host.id,
        host.name,
        host.site,
        in_words(host.level, LEVELS, language),
        language.ngettext("{number} observer at a time", "{number} observers at a time", most) if most else "",
        _words(standing, zone, language),
        standing.standing if standing else "",
        bool(terms and terms.ask_first and standing is None),
    )


def _words(standing: Standing | None, zone: str, language: Language) -> str:
    if standing is None:
        return ""
    at = day_text(day_in(standing.since, zone), language.locale)
    return language(STANDING_WITH[standing.standing], at=at)
