"""Finding a lesson: what is still needed, which hosts have a place on a day, what it would count; and places asked for."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from urllib.parse import urlencode

from app.clock import day_in
from app.queries.prospects import prospects_of
from app.queries.standing import standing_of
from app.storage.enrolments import Enrolment
from app.storage.host_terms import DECLINED, Terms
from app.storage.host_terms import TAKEN as TAKEN_ON
from app.storage.hosts import Host
from app.storage.places import ASKED, OBSERVATION, TAKEN, Place
from app.storage.work import Work
from app.wording.dates import day_text, long_day, times_text
from app.wording.hosts import LEVELS, STANDING_WITH
from app.wording.hours import REASONS, hours
from app.wording.languages import Language
from app.wording.places import FOR_HOST, STANDINGS, free_text
from app.wording.sessions import in_words, part_text
from assessments.hours.company import most_beside
from assessments.hours.needs import Need, needs
from assessments.hours.session import Part, Session, entries_of
from assessments.hours.warning import Prospect
from curriculum.faults import N_

FIELDS = ("activity", "apparatus", "level")


@dataclass(frozen=True, slots=True)
class Offer:
    """A host as somebody who looks for a lesson sees them.

    `counts` says what the time would count, `why_not` why no place can be asked for ("" where it can); `may_ask` where
    the host wants to be asked first, and was not yet.
    """

    id: str
    name: str
    where: str
    free: str
    standing: str
    standing_kind: str
    counts: str
    why_not: str
    may_ask: bool
    useful: bool


@dataclass(frozen=True, slots=True)
class ShownPlace:
    """A place as its trainee or its host sees it; `other` is the one who is not reading, `beside` who else is there."""

    id: str
    day: str
    times: str
    other: str
    what: str
    standing: str
    words: str
    kind: str
    beside: str = ""


def needs_of(work: Work, enrolment: Enrolment, today: date) -> tuple[Need, ...]:
    return needs(*standing_of(work, enrolment, today))


def needs_shown(found: Iterable[Need], language: Language) -> list[tuple[str, str]]:
    """Each need in words, and the address that looks for it."""
    sentence = N_("{time} {what}")
    return [
        (
            language(sentence, time=hours(one.minutes, language), what=one.title),
            "/host-teachers?" + urlencode({name: one.fields[name] for name in FIELDS if name in one.fields}),
        )
        for one in found
    ]


def offers(work: Work, enrolment: Enrolment, wish: Place, today: date, zone: str, language: Language) -> list[Offer]:  # noqa: PLR0913
    """Hosts who are on offer on the day, first those with whom it counts and who have a place."""
    hosts = [host for host in work.hosts.all() if host.offered_on(wish.day)]
    earns = dict(zip([host.id for host in hosts], _earns(work, enrolment, wish, hosts, today), strict=True))
    terms, standings = work.host_terms.all(), work.host_terms.standings_of(enrolment.person_id)
    taken = [one for one in work.places.taken_on(wish.day) if one.observes]
    found = []
    for host in hosts:
        own, standing = terms.get(host.id), standings.get(host.id)
        beside = most_beside(wish.start, wish.end, [(one.start, one.end) for one in taken if one.host_id == host.id])
        counts, useful = _counts(earns[host.id], language)
        why_not = _why_not(host, own, standing.standing if standing else "", wish, beside, language)
        said = ""
        if standing:
            at = day_text(day_in(standing.since, zone), language.locale)
            said = language(STANDING_WITH[standing.standing], at=at)
        found.append(
            Offer(
                host.id,
                host.name,
                " · ".join([host.site, in_words(host.level, LEVELS, language)]),
                free_text(own.observers_most, beside, language) if own and own.observers_most and wish.observes else "",
                said,
                {"asked": "waiting", TAKEN_ON: "done"}.get(standing.standing, "behind") if standing else "",
                counts,
                why_not,
                bool(own and own.ask_first and standing is None),
                useful and not why_not,
            )
        )
    return sorted(found, key=lambda one: (not one.useful, bool(one.why_not), one.name))


def places_of_trainee(work: Work, person_id: str, today: date, language: Language) -> list[ShownPlace]:
    """What somebody asked for from today on."""
    names = {host.id: host.name for host in work.hosts.all()}
    places = work.places.of_person(person_id, today)
    return [_shown(one, names[one.host_id], STANDINGS, language) for one in places]


def places_of_host(work: Work, host: Host, today: date, language: Language) -> list[ShownPlace]:
    """What is asked of a host, who waits for an answer first; and whom they took from today on."""
    names, found = work.people.names(), []
    places = work.places.of_host(host.id, today)
    taken = [one for one in places if one.standing == TAKEN and one.observes]
    for one in places:
        others = [(two.start, two.end) for two in taken if two.day == one.day and two.id != one.id]
        beside = most_beside(one.start, one.end, others) if one.observes else 0
        words = language.ngettext("{number} other then", "{number} others then", beside) if beside else ""
        found.append(replace(_shown(one, names.get(one.person_id, ""), FOR_HOST, language), beside=words))
    return sorted(found, key=lambda one: one.standing != ASKED)


def asks_waiting(work: Work, host: Host, today: date) -> int:
    """How many places wait for this host's answer."""
    return sum(one.standing == ASKED for one in work.places.of_host(host.id, today))


def _shown(place: Place, other: str, standings: Mapping[str, tuple[str, str]], language: Language) -> ShownPlace:
    words, kind = standings[place.standing]
    part = Part(place.end - place.start, place.activity, place.apparatus, place.level)
    day, times = long_day(place.day, language.locale), times_text(place.start, place.end, language)
    return ShownPlace(place.id, day, times, other, part_text(part, language), place.standing, language(words), kind)


def _earns(work: Work, enrolment: Enrolment, wish: Place, hosts: list[Host], today: date) -> list[Prospect]:
    """What it would earn with each host, were it signed."""
    part = Part(wish.end - wish.start, wish.activity, wish.apparatus, wish.level)
    sessions = [
        entries_of(Session("wish", wish.day, wish.start, wish.end, (part,), 0, one.id, one.site, state="signed_off"))
        for one in hosts
    ]
    return prospects_of(work, enrolment, sessions, today)


def _counts(found: Prospect, language: Language) -> tuple[str, bool]:
    if found.saves:
        return language(N_("brings you {time} nearer"), time=hours(found.saves, language)), True
    if found.minutes:
        return language(N_("would count, but is not what is still missing")), False
    why = list(dict.fromkeys(language(REASONS[one.reason]) for one in found.reasons))
    return language(N_("would earn nothing: {why}"), why=language.listed(why)), False


def _why_not(  # noqa: PLR0913 - what speaks against it
    host: Host, terms: Terms | None, standing: str, wish: Place, beside: int, language: Language
) -> str:
    if standing == DECLINED:
        return language(N_("does not take you on"))
    if not host.teaches_on(wish.apparatus):
        return language(N_("teaches on the mat only"))
    if wish.activity == OBSERVATION and terms and terms.observers_most and beside >= terms.observers_most:
        return language(N_("no observer's place is free then"))
    return ""
