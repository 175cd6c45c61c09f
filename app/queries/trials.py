"""A week that is tried: what planned sessions would earn and how the standing would change; nothing is stored."""

from dataclasses import dataclass
from datetime import date

from app.queries.criteria import fact_titles
from app.queries.standing import facts_of
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.wording.asides import AsideTexts
from app.wording.dates import day_text, long_day
from app.wording.hour_plan import plan_lines
from app.wording.hours import figure, hours
from app.wording.languages import Language
from app.wording.sessions import parts_text
from assessments.hours.session import Session, entries_of
from assessments.hours.trial import Tried, tried
from curriculum.requirements.requirement_set import RequirementSet


@dataclass(frozen=True, slots=True)
class PlannedShown:
    """A planned session: when and what, what it would earn, and why not the rest."""

    day: str
    what: str
    length: str
    earns: str
    asides: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Trial:
    """Rows of figures are of what changes only: name, now, then, difference; `plan` is what would be left."""

    day: str
    to_do_now: str
    to_do_then: str
    saved: str
    saves: bool
    complete: bool
    sessions: tuple[PlannedShown, ...]
    categories: tuple[tuple[str, ...], ...]
    rules: tuple[tuple[str, ...], ...]
    plan: tuple[str, ...]


def trial_of(
    work: Work, enrolment: Enrolment, requirements: RequirementSet, planned: list[Session], today: date,
    language: Language,
) -> Trial:  # fmt: skip
    """How an enrolment would stand if the planned sessions took place and were signed."""
    known = [entry for one in work.ledger.of_enrolment(enrolment.id) for entry in entries_of(one)]
    new = [entry for one in planned for entry in entries_of(one)]
    found = tried(requirements, known, new, facts_of(work, enrolment), as_of=today, enrolled=enrolment.enrolled_on)
    texts = AsideTexts(requirements, language, fact_titles(work))
    return Trial(
        day_text(found.after.as_of, language.locale),
        hours(found.before.further_minutes, language),
        hours(found.after.further_minutes, language),
        hours(found.saved, language),
        found.saved > 0,
        found.after.complete,
        tuple(_planned(one, found, texts, language) for one in planned),
        tuple(_categories(found, language)),
        tuple(_rules(found, language)),
        tuple(plan_lines(requirements, found.after, language)),
    )


def _planned(session: Session, found: Tried, texts: AsideTexts, language: Language) -> PlannedShown:
    (entry,) = entries_of(session)
    return PlannedShown(
        long_day(session.day, language.locale),
        parts_text(session.parts, language),
        hours(session.minutes, language),
        hours(found.earned[entry.id], language),
        tuple(texts.of(one) for one in found.aside[entry.id]),
    )


def _categories(found: Tried, language: Language):  # noqa: ANN202 - rows of texts
    for now, then in zip(found.before.categories, found.after.categories, strict=True):
        if now.credited != then.credited:
            figures = (now.credited, then.credited, then.credited - now.credited)
            yield (now.title or now.id, *(hours(some, language) for some in figures))


def _rules(found: Tried, language: Language):  # noqa: ANN202
    for now, then in zip(found.before.rules, found.after.rules, strict=True):
        if now.met != then.met:
            yield (now.title or now.id, *(figure(now, some, language) for some in (now.needed, now.met, then.met)))
