"""What a host teacher signed, and what it comes to in a year, as their own page and statement show it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from app.files.receipts import write_root
from app.queries.feedback import can_have_feedback
from app.queries.proof import current_root
from app.storage.hosts import Host, HostDecision
from app.storage.work import Work
from app.wording.dates import day_text, moment_text, times_text
from app.wording.hours import hours
from app.wording.languages import Language
from app.wording.sessions import ACTIVITIES, in_words, parts_text
from assessments.hours.mentoring import Mentoring, mentoring
from assessments.hours.session import Session
from curriculum.faults import N_

STATEMENT = N_("Mentoring by {name} in {year}")
SAYS = N_(
    "{school} confirms that {name} had its trainees in their lessons as a host teacher, and signed for the time: {hours}, "
    "each lesson counted once however many trainees were there."
)
SO_FAR = N_("The year is not over: this is what stands signed on {day}.")


@dataclass(frozen=True, slots=True)
class SignedLine:
    """One session that stands signed."""

    day: str
    trainee: str
    times: str
    what: str
    length: str
    signed: str
    receipt: str
    feedback: str = ""


@dataclass(frozen=True, slots=True)
class HostRecord:
    """`years` are those in which anything was signed, newest first; `figures` (label, amount) and `lines` of one year."""

    year: int
    years: tuple[int, ...]
    figures: tuple[tuple[str, str], ...]
    lines: tuple[SignedLine, ...]


@dataclass(frozen=True, slots=True)
class Statement:
    """A yearly statement in words; `root` is the line by which its school's record can be checked later."""

    title: str
    school: str
    name: str
    made: str
    says: str
    so_far: str
    figures: tuple[tuple[str, str], ...]
    root: str


def host_record(work: Work, host: Host, year: int, zone: str, language: Language) -> HostRecord:
    """The sessions of a year that stand signed by this host, newest first."""
    receipts = _receipts(work, host)
    signed = _signed(work, host, receipts)
    years = sorted({session.day.year for _, session in signed}, reverse=True)
    names = work.people.names()
    people = {one: names.get(work.enrolments.by_id(one).person_id, "") for one in {one for one, _ in signed}}
    lines = []
    for enrolment_id, session in reversed(_of_year(signed, year)):
        decided = receipts[session.id, session.version]
        lines.append(
            SignedLine(
                day_text(session.day, language.locale),
                people[enrolment_id],
                times_text(session.start, session.end, language),
                parts_text(session.parts, language),
                hours(session.minutes, language),
                moment_text(decided.decided_at, zone, language.locale),
                decided.receipt,
                session.id if can_have_feedback(session) else "",
            )
        )
    return HostRecord(year, tuple(years), _figures(mentoring(_of_year(signed, year)), language), tuple(lines))


def statement(work: Work, host: Host, year: int, school: str, today: date, language: Language) -> Statement:
    """What the school confirms of a year; trainees are counted, not named."""
    found = mentoring(_of_year(_signed(work, host, _receipts(work, host)), year))
    made = day_text(today, language.locale)
    return Statement(
        language(STATEMENT, name=host.name, year=str(year)),
        school,
        host.name,
        made,
        language(SAYS, school=school, name=host.name, hours=hours(found.minutes, language)),
        language(SO_FAR, day=made) if year >= today.year else "",
        _figures(found, language),
        write_root(current_root(work)),
    )


def _receipts(work: Work, host: Host) -> dict[tuple[str, int], HostDecision]:
    """What the host decided, by session and version."""
    return {(one.session_id, one.version): one for one in work.hosts.decided_by(host.id)}


def _signed(work: Work, host: Host, receipts: Mapping[tuple[str, int], object]) -> list[tuple[str, Session]]:
    """What stands signed by the host, as far as the host signed it here."""
    return [pair for pair in work.ledger.signed_by(host.id) if (pair[1].id, pair[1].version) in receipts]


def _of_year(signed: Iterable[tuple[str, Session]], year: int) -> list[tuple[str, Session]]:
    return [pair for pair in signed if pair[1].day.year == year]


def _figures(found: Mentoring, language: Language) -> tuple[tuple[str, str], ...]:
    return (
        (language(N_("Time with trainees, each lesson once")), hours(found.minutes, language)),
        (language(N_("Sessions signed")), language.figure(found.sessions)),
        (language(N_("Trainees")), language.figure(found.trainees)),
        (language(N_("Time signed for all of them together")), hours(found.trainee_minutes, language)),
        *_by_activity(found.by_activity, language),
    )


def _by_activity(minutes: Mapping[str, int], language: Language) -> list[tuple[str, str]]:
    most_first = sorted(minutes.items(), key=lambda pair: (-pair[1], pair[0]))
    return [
        (language(N_("of it: {what}"), what=in_words(activity, ACTIVITIES, language)), hours(some, language))
        for activity, some in most_first
    ]
