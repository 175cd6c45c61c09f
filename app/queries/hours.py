"""A trainee's hours as the page shows them: what is still to do, per rule, and every session with its why."""

from dataclasses import asdict, dataclass, replace
from datetime import date, timedelta
from itertools import groupby

from app.queries.criteria import fact_titles
from app.queries.feedback import ShownFeedback, feedback_shown
from app.queries.forecasts import KeptForecast
from app.queries.standing import Summary, facts_of, forecast_now, standing_of, summarised
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.wording.asides import asides_by_session
from app.wording.dates import day_text, long_day, moment_text, times_text
from app.wording.forecasts import band_text, forecast_lines
from app.wording.hour_plan import plan_lines
from app.wording.hours import COURSES, figure, hours
from app.wording.languages import Language
from app.wording.sessions import DECISIONS, STATES, parts_text
from assessments.hours.session import KEPT_BY_THE_SCHOOL, Session, after
from assessments.hours.standing import CategoryStanding, RuleStanding
from curriculum.faults import N_
from curriculum.requirements.requirement_set import RequirementSet


@dataclass(frozen=True, slots=True)
class Line:
    """One trainee's line of time, as the picture takes it; minutes are whole."""

    name: str
    href: str | None
    enrolled: date
    today: date
    ends: date
    needed: int
    credited: int
    waiting: int
    enrolled_text: str
    today_text: str
    ends_text: str
    needed_text: str
    credited_text: str
    waiting_text: str
    to_do_text: str
    state: str
    state_kind: str
    forecast: date | None = None
    forecast_text: str | None = None
    early: date | None = None
    late: date | None = None
    band_text: str = ""
    course: str = ""

    @property
    def behind(self) -> float:
        """How far the work lags an even pace, as a share of all that is needed; worst is largest."""
        passed = (self.today - self.enrolled).days / max((self.ends - self.enrolled).days, 1)
        return min(max(passed, 0.0), 1.0) - min(self.credited / max(self.needed, 1), 1.0)


@dataclass(frozen=True, slots=True)
class ShownSession:
    """One session of the list: when, with whom, where it stands, and what of it earns nothing and why.

    `kept` says by whom and on what evidence the school took it; empty if it was not the school.
    """

    id: str
    times: str
    length: str
    what: str
    host: str
    state: str
    state_kind: str
    asides: tuple[str, ...]
    kept: str = ""


@dataclass(frozen=True, slots=True)
class ShownDay:
    """The sessions of one day."""

    day: str
    total: str
    sessions: tuple[ShownSession, ...]


@dataclass(frozen=True, slots=True)
class HoursOverview:
    """Everything of the page; texts are for people."""

    line: Line
    complete: bool
    to_do: str
    waiting: str
    categories: tuple[tuple[str, ...], ...]
    rules: tuple[tuple[str, ...], ...]
    days: tuple[ShownDay, ...]
    plan: tuple[str, ...]
    requirements: RequirementSet
    forecast: tuple[str, ...] = ()


def hours_overview(work: Work, enrolment: Enrolment, name: str, today: date, language: Language) -> HoursOverview:
    """The hours of one enrolment, solved now."""
    requirements, standing = standing_of(work, enrolment, today)
    facts = facts_of(work, enrolment)
    ahead = forecast_now(work, enrolment, requirements, standing, facts)
    summary = replace(summarised(requirements, standing, facts), forecast=asdict(ahead))
    hosts = {host.id: host.name for host in work.hosts.all()}
    return HoursOverview(
        line_of(enrolment, summary, name, None, today, language),
        standing.complete,
        hours(standing.further_minutes, language),
        hours(standing.waiting_minutes, language),
        tuple(_category(one, language) for one in standing.categories),
        tuple(_rule(one, language) for one in standing.rules),
        _days(
            work.ledger.of_enrolment(enrolment.id),
            asides_by_session(requirements, standing, language, fact_titles(work)),
            hosts,
            kept_texts(work, enrolment.id, language),
            language,
        ),  # fmt: skip
        tuple(plan_lines(requirements, standing, language)),
        requirements,
        forecast_lines(ahead, summary.ends, language),
    )


def line_of(
    enrolment: Enrolment, summary: Summary, name: str, href: str | None, today: date, language: Language
) -> Line:
    """The line of one enrolment; without a window it ends where an even pace would."""
    ends = date.fromisoformat(summary.ends) if summary.ends else max(today, enrolment.enrolled_on + timedelta(days=365))
    done = summary.needed - summary.further
    course = _course(enrolment, summary, ends, today)
    state, kind = COURSES[course]
    days = (day_text(day, language.locale) for day in (enrolment.enrolled_on, today, ends))
    times = (hours(some, language) for some in (summary.needed, done, summary.waiting, summary.further))
    return Line(
        name, href, enrolment.enrolled_on, today, ends, summary.needed, min(done, summary.needed), summary.waiting,
        *days, *times, language(state), kind, course=course, **_ahead(summary, today, language),
    )  # fmt: skip


def _ahead(summary: Summary, today: date, language: Language) -> dict[str, object]:
    """The forecast as a line draws it: the day reached with even odds, and the fan around it."""
    if not summary.forecast or not summary.forecast["middle"]:
        return {}
    ahead = KeptForecast(**summary.forecast)
    early, middle, late = (date.fromisoformat(one) if one else None for one in (ahead.early, ahead.middle, ahead.late))
    return {
        "forecast": middle,
        "forecast_text": day_text(middle, language.locale),
        "early": max(early or middle, today),
        "late": late or middle + timedelta(days=3653),
        "band_text": band_text(ahead, language),
    }


def _course(enrolment: Enrolment, summary: Summary, ends: date, today: date) -> str:
    if summary.further == 0:
        return "complete"
    if today > ends:
        return "over"
    passed = (today - enrolment.enrolled_on).days / max((ends - enrolment.enrolled_on).days, 1)
    done = (summary.needed - summary.further) / max(summary.needed, 1)
    return "behind" if done + 0.05 < passed else "on-course"


def _category(one: CategoryStanding, language: Language) -> tuple[str, ...]:
    figures = (one.needed, one.credited, one.waiting, one.further_at_least)
    return (one.title or one.id, *(hours(some, language) for some in figures))


def _rule(one: RuleStanding, language: Language) -> tuple[str, ...]:
    figures = (one.needed, one.met, one.waiting, one.short)
    return (one.title or one.id, *(figure(one, some, language) for some in figures))


def _days(
    sessions: tuple[Session, ...], asides: dict[str, list[str]], hosts: dict[str, str], kept: dict[str, str],
    language: Language,
) -> tuple[ShownDay, ...]:  # fmt: skip
    newest_first = sorted(sessions, key=lambda one: (one.day, one.start), reverse=True)
    return tuple(
        _day(day, list(some), asides, hosts, kept, language)
        for day, some in groupby(newest_first, key=lambda one: one.day)
    )


def _day(  # noqa: PLR0913 - what the sessions of a day are shown with
    day: date, some: list[Session], asides: dict[str, list[str]], hosts: dict[str, str], kept: dict[str, str],
    language: Language,
) -> ShownDay:  # fmt: skip
    total = hours(sum(one.minutes for one in some if one.state != "withdrawn"), language)
    shown = tuple(shown_session(one, hosts, asides[one.id], language, kept.get(one.id, "")) for one in some)
    return ShownDay(long_day(day, language.locale), total, shown)


def kept_texts(work: Work, enrolment_id: str, language: Language) -> dict[str, str]:
    """By whom and on what evidence the school took what it keeps, by session."""
    names, found = work.people.names(), {}
    for session_id, (evidence, by, _) in work.ledger.evidence_of(enrolment_id).items():
        found[session_id] = language(N_("By {name}, on this evidence: {evidence}"), name=names[by], evidence=evidence)
    return found


def when_text(session: Session, language: Language) -> str:
    """From when to when; or how long, where that is all the school knows, and over which days."""
    if session.timed:
        return times_text(session.start, session.end, language)
    if session.first is None:
        return hours(session.minutes, language)
    first, last = (day_text(day, language.locale) for day in (session.first, session.day))
    return language(N_("{time}, {first} to {last}"), time=hours(session.minutes, language), first=first, last=last)


def shown_session(
    session: Session, hosts: dict[str, str], asides: list[str], language: Language, kept: str = ""
) -> ShownSession:
    """A session in words."""
    state, kind = STATES[session.state]
    times, length = when_text(session, language), hours(session.minutes, language)
    what, host = parts_text(session.parts, language), hosts.get(session.host, "")
    return ShownSession(session.id, times, length, what, host, language(state), kind, tuple(asides), kept)


@dataclass(frozen=True, slots=True)
class SessionOverview:
    """One session with what was decided about it."""

    session: Session
    shown: ShownSession
    day: str
    reason: str
    facts: tuple[tuple[str, str], ...]
    can_withdraw: bool
    can_correct: bool
    requirements: RequirementSet
    has_receipt: bool
    feedback: tuple[ShownFeedback, ...] = ()


def session_overview(
    work: Work, enrolment: Enrolment, session_id: str, today: date, zone: str, language: Language
) -> SessionOverview:
    """A session of an enrolment as it stands, with its decisions and what it earns."""
    requirements, standing = standing_of(work, enrolment, today)
    session = work.ledger.now(session_id)
    hosts = {host.id: host.name for host in work.hosts.all()}
    asides = asides_by_session(requirements, standing, language, fact_titles(work))[session_id]
    decisions = work.hosts.decisions(session_id)
    last = decisions[-1] if decisions else None
    sent_back = last is not None and session.state == "sent_back"
    facts = [
        (language(N_("Length")), hours(session.minutes, language)),
        (language(N_("Version")), language.figure(session.version)),
    ]
    facts += [(language(N_("Host")), hosts[session.host])] if session.host else []
    facts += _before_shortened(work, session, language)
    for one in decisions:
        at = moment_text(one.decided_at, zone, language.locale)
        facts.append((language(DECISIONS[one.decision]), language(N_("{at}, {receipt}"), at=at, receipt=one.receipt)))
    return SessionOverview(
        session,
        shown_session(session, hosts, asides, language, kept_texts(work, enrolment.id, language).get(session.id, "")),
        long_day(session.day, language.locale),
        (work.record.words(last.reason_id) or "") if sent_back else "",
        tuple(facts),
        after(session.state, "withdraw") is not None,
        session.proof not in KEPT_BY_THE_SCHOOL,
        requirements,
        session.state == "signed_off" and last is not None,
        feedback_shown(work, enrolment, language, session_id),
    )


def _before_shortened(work: Work, session: Session, language: Language) -> list[tuple[str, str]]:
    """What had been put down, where the host signed for less."""
    events = [one for one in work.record.of_subject(session.id) if one.kind == "session-shortened"]
    if not any(one.content()["version"] == session.version for one in events):
        return []
    before, _ = work.ledger.logged(session.id, session.version - 1)
    times, length = times_text(before.start, before.end, language), hours(before.minutes, language)
    was = language(N_("{times}, {length} were put down"), times=times, length=length)
    return [(language(N_("Made shorter by the host")), was)]
