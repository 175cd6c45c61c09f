"""How a trainee's credit changed since a day: what happened in the log, what it gave, and what moved for it and why."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from app.queries.criteria import fact_titles
from app.queries.log_then import log_then
from app.queries.standing import facts_of, requirements_of
from app.storage.enrolments import Enrolment
from app.storage.work import School, Work
from app.wording.changes import happened_text, move_text
from app.wording.dates import day_text
from app.wording.hours import hours
from app.wording.languages import Language
from assessments.hours.assessing import assess
from assessments.hours.moves import moves
from assessments.hours.session import Session, entries_of
from assessments.hours.standing import Standing


@dataclass(frozen=True, slots=True)
class Changes:
    """Texts for people; `categories` are (name, credited then, credited now, difference) of those that differ."""

    name: str
    since: str
    to_do_then: str
    to_do_now: str
    happened: tuple[str, ...]
    categories: tuple[tuple[str, ...], ...]
    moves: tuple[str, ...]


def changes_since(  # noqa: PLR0913 - whose, since when, and how it is shown
    work: Work, enrolment: Enrolment, since: date, today: date, school: School, language: Language
) -> Changes:
    """Both logs by today's rules, facts and day, so that only what happened in the log makes a difference."""
    at = datetime.combine(since, time(), ZoneInfo(school.time_zone))
    then, changed = log_then(work, enrolment.id, at)
    now = work.ledger.of_enrolment(enrolment.id)
    requirements, facts = requirements_of(work.editions.by_id(enrolment.requirements_id)), facts_of(work, enrolment)

    def stands(sessions: tuple[Session, ...]) -> Standing:
        entries = [entry for one in sessions for entry in entries_of(one)]
        return assess(requirements, entries, facts, as_of=today, enrolled=enrolment.enrolled_on)

    before, after = stands(then), stands(now)
    days = {entry.id: one.day for one in now for entry in entries_of(one)}
    unchanged = {name for name in days if name.split("/")[0] not in changed}
    said = (
        move_text(one, day_text(days[one.entry], language.locale), requirements, language, fact_titles(work))
        for one in moves(before, after, unchanged)
    )
    return Changes(
        work.people.names()[enrolment.person_id],
        day_text(since, language.locale),
        hours(before.further_minutes, language),
        hours(after.further_minutes, language),
        tuple(_happened(then, now, changed, language)),
        tuple(_categories(before, after, language)),
        tuple(dict.fromkeys(said)),
    )


def _happened(
    then: tuple[Session, ...], now: tuple[Session, ...], changed: tuple[str, ...], language: Language
) -> Iterator[str]:
    known, some = {one.id: one for one in then}, set(changed)
    for one in sorted((one for one in now if one.id in some), key=lambda one: (one.day, one.id), reverse=True):
        yield happened_text(known.get(one.id), one, language)


def _categories(before: Standing, after: Standing, language: Language) -> Iterator[tuple[str, ...]]:
    for then, now in zip(before.categories, after.categories, strict=True):
        if then.credited != now.credited:
            figures = (then.credited, now.credited, now.credited - then.credited)
            yield (now.title or now.id, *(hours(some, language) for some in figures))
