"""The open questions about a cohort's log, with the sessions they are about."""

import hashlib
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from app.queries.enrolled import enrolled_now
from app.queries.hours import when_text
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.languages import Language
from app.wording.questions import ASKED
from assessments.hours.oddities import OF_HOSTS, Logged, Question, questions

CLOSED = "question-closed"
SESSIONS_SHOWN = 6


@dataclass(frozen=True, slots=True)
class ShownQuestion:
    """`of_host`: a host is asked, not a trainee; `more` counts the sessions that are not shown."""

    id: str
    text: str
    who: str
    href: str
    of_host: bool
    sessions: tuple[str, ...]
    more: int
    expires: str


def question_id(question: Question) -> str:
    """The same for the same kind, person and sessions."""
    parts = (question.kind, question.who, *sorted(question.sessions))
    return hashlib.sha256("|".join(parts).encode()).hexdigest()[:32]


def open_questions(work: Work, today: date, zone: str) -> dict[str, Question]:
    """By id, what may be asked today of those still at the school and was not closed."""
    found = {question_id(one): one for one in questions(_log(work, zone), today)}
    closed = {one.subject for one in work.record.newest_of(list(found), len(found)) if one.kind == CLOSED}
    return {key: one for key, one in found.items() if key not in closed}


def shown_questions(work: Work, today: date, zone: str, language: Language) -> tuple[ShownQuestion, ...]:
    """The open questions in words, those that lapse first at the head."""
    found = sorted(open_questions(work, today, zone).items(), key=lambda pair: pair[1].expires)
    people, enrolments = work.people.names(), {one.id: one for one in enrolled_now(work)}
    hosts = {one.id: one.name for one in work.hosts.all()}
    shown = []
    for key, one in found:
        of_host = one.kind in OF_HOSTS
        name = hosts[one.who] if of_host else people[enrolments[one.who].person_id]
        href = f"/hosts/{one.who}" if of_host else f"/trainees/{one.who}"
        some = [work.ledger.now(each) for each in one.sessions[:SESSIONS_SHOWN]]
        lines = tuple(
            " · ".join(filter(None, (day_text(each.day, language.locale), when_text(each, language), each.site)))
            for each in some
        )
        expires = day_text(one.expires, language.locale)
        text = language(ASKED[one.kind], name=name)
        shown.append(ShownQuestion(key, text, name, href, of_host, lines, len(one.sessions) - len(lines), expires))
    return tuple(shown)


def _log(work: Work, zone: str) -> list[Logged]:
    """Every session of those still at the school, with when it was logged in the school's own time."""
    local, notes, first = ZoneInfo(zone), work.ledger.notes_to(), work.ledger.logged_at()
    return [
        Logged(one, enrolment.id, first[one.id][1].astimezone(local).replace(tzinfo=None), notes.get(one.id, ""))
        for enrolment in enrolled_now(work)
        for one in work.ledger.of_enrolment(enrolment.id)
    ]
