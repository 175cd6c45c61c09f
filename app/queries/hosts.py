"""Host teachers as the director sees them: the register by what waits longest, and one host with their record."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from app.storage.hosts import Host
from app.storage.record import Event
from app.storage.work import Work
from app.wording.dates import day_text, moment_text
from app.wording.hosts import EVENTS, FIELDS, LEVELS, STANDINGS
from app.wording.languages import Language
from app.wording.sessions import in_words
from curriculum.faults import N_

LATE = timedelta(days=14)


@dataclass(frozen=True, slots=True)
class HostLine:
    """One host of the register; texts are for people. `late` if a session has waited longer than `LATE`."""

    id: str
    name: str
    site: str
    level: str
    eligible: str
    standing: str
    standing_kind: str
    waiting: str
    late: bool
    link: str


@dataclass(frozen=True, slots=True)
class HostOverview:
    """One host; `events` are (when, by whom, what, why), newest first."""

    line: HostLine
    email: str
    person: str
    paused: bool
    observers: str
    ask_first: bool
    has_pin: bool
    events: tuple[tuple[str, str, str, str], ...]


def host_list(work: Work, today: date, zone: str, language: Language) -> tuple[HostLine, ...]:
    """Every host: those for whom something waits first, the longest wait on top; then by name."""
    waiting, links = work.ledger.waiting_by_host(), work.hosts.links_made()
    found = sorted(work.hosts.all(), key=lambda one: (waiting.get(one.id, (0, date.max))[1], one.name))
    return tuple(_line(one, waiting.get(one.id), links.get(one.id), today, zone, language) for one in found)


def host_overview(work: Work, host: Host, today: date, zone: str, language: Language) -> HostOverview:
    """One host with everything that was done about them."""
    waiting, links = work.ledger.waiting_by_host().get(host.id), work.hosts.links_made().get(host.id)
    names, terms = work.people.names(), work.host_terms.of(host.id)
    return HostOverview(
        _line(host, waiting, links, today, zone, language),
        host.email,
        names.get(host.person_id or "", ""),
        host.paused_at is not None,
        language.figure(terms.observers_most) if terms and terms.observers_most else language(N_("no limit")),
        bool(terms and terms.ask_first),
        work.spot_codes.pin_of(host.id) is not None,
        tuple(_event(work, one, names, host.name, zone, language) for one in reversed(work.record.of_subject(host.id))),
    )


def people_on_offer(work: Work) -> list[tuple[str, str]]:
    """Everybody of the school who has not left, by name: their id, and their name."""
    gone = work.people.gone()
    found = [(id, name) for id, name in work.people.names().items() if id not in gone]
    return sorted(found, key=lambda one: one[1])


def _line(  # noqa: PLR0913 - what one line shows
    host: Host, waiting: tuple[int, date] | None, link: datetime | None, today: date, zone: str, language: Language
) -> HostLine:
    words, kind = STANDINGS[_standing(host, today)]
    return HostLine(
        host.id,
        host.name,
        host.site,
        in_words(host.level, LEVELS, language),
        _eligible(host, language),
        language(words),
        kind,
        _waiting(*waiting, language) if waiting else "",
        bool(waiting and today - waiting[1] > LATE),
        moment_text(link, zone, language.locale) if link else "",
    )


def _standing(host: Host, today: date) -> str:
    if host.eligible_until and host.eligible_until < today:
        return "ended"
    if host.verified_on > today:
        return "coming"
    return "paused" if host.paused_at else "eligible"


def _eligible(host: Host, language: Language) -> str:
    first = day_text(host.verified_on, language.locale)
    if host.eligible_until is None:
        return language(N_("eligible from {first}"), first=first)
    last = day_text(host.eligible_until, language.locale)
    return language(N_("eligible from {first} to {last}"), first=first, last=last)


def _waiting(number: int, oldest: date, language: Language) -> str:
    return language.ngettext(
        "{number} session waits, the oldest from {day}",
        "{number} sessions wait, the oldest from {day}",
        number,
        day=day_text(oldest, language.locale),
    )


def _event(  # noqa: PLR0913 - what an event says
    work: Work, one: Event, names: dict[str, str], host: str, zone: str, language: Language
) -> tuple[str, str, str, str]:
    body = one.content()
    fields = language.listed([language(FIELDS[name]) for name in body.get("fields", ())])
    last = day_text(date.fromisoformat(body["last"]), language.locale) if "last" in body else ""
    what = language(EVENTS[one.kind], fields=fields, day=last)
    why = (work.record.words(body["reason_id"]) or "") if "reason_id" in body else ""
    by = host if one.actor.startswith("host:") else names.get(one.actor, "")
    return moment_text(one.at, zone, language.locale), by, what, why
