"""The standing of an enrolment from set, entries and facts; and a summary of it kept for the cohort."""

import hashlib
import json
from dataclasses import asdict, dataclass
from datetime import date
from functools import lru_cache

from app.files.requirements import requirements_from_text
from app.storage.editions import Edition
from app.storage.enrolments import Enrolment
from app.storage.standings import KeptStanding
from app.storage.work import Work
from assessments.hours.assessing import assess
from assessments.hours.calendar import window_end
from assessments.hours.entry import Facts, Span
from assessments.hours.session import entries_of
from assessments.hours.standing import Standing
from curriculum.requirements.requirement_set import RequirementSet


@dataclass(frozen=True, slots=True)
class Summary:
    """What a cohort's line needs of a standing; minutes are whole, `ends` an ISO day."""

    needed: int
    credited: int
    waiting: int
    further: int
    ends: str


def standing_of(work: Work, enrolment: Enrolment, today: date) -> tuple[RequirementSet, Standing]:
    """The requirement set an enrolment is on, and where it stands today."""
    requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
    return requirements, standing_by(work, enrolment, requirements, today)


def standing_by(work: Work, enrolment: Enrolment, requirements: RequirementSet, today: date) -> Standing:
    """Where an enrolment would stand today by any requirement set."""
    entries = [entry for session in work.ledger.of_enrolment(enrolment.id) for entry in entries_of(session)]
    facts = facts_of(work, enrolment)
    return assess(requirements, entries, facts, as_of=today, enrolled=enrolment.enrolled_on)


def requirements_of(edition: Edition) -> RequirementSet:
    """The set of a published edition; editions never change, so each is read once."""
    return _read(edition.id, json.dumps(edition.documents, sort_keys=True))


@lru_cache(maxsize=64)
def _read(_: str, documents: str) -> RequirementSet:
    ((name, text),) = json.loads(documents).items()
    return requirements_from_text(text, name)


def facts_of(work: Work, enrolment: Enrolment) -> Facts:
    """Practicals passed, modules, documents, extensions and leave, with their dates."""
    granted = work.enrolments.time_granted(enrolment.id)
    documents = sorted(work.enrolments.documents(enrolment.id), key=lambda shown: shown.valid_from)
    return Facts(
        practicals=work.exams.passed(enrolment.id),
        modules=work.enrolments.modules_done(enrolment.id),
        documents={shown.kind: Span(shown.valid_from, shown.valid_to) for shown in documents},
        extensions=tuple(one.granted_at.date() for one in granted if one.kind == "extension"),
        leave=tuple(Span(one.first_day, one.last_day) for one in granted if one.kind == "leave"),
    )


def summary_of(work: Work, enrolment: Enrolment, today: date) -> tuple[Summary, KeptStanding | None]:
    """The kept summary if nothing it follows from has changed, else a new one and what to keep of it."""
    fingerprint = _fingerprint(work, enrolment, today)
    kept = work.standings.get(enrolment.id)
    if kept is not None and kept.fingerprint == fingerprint:
        return Summary(**json.loads(kept.result)), None
    requirements, standing = standing_of(work, enrolment, today)
    summary = summarised(requirements, standing, facts_of(work, enrolment))
    return summary, KeptStanding(fingerprint, json.dumps(asdict(summary)))


def summarised(requirements: RequirementSet, standing: Standing, facts: Facts) -> Summary:
    """A standing in five figures. Needed is what is credited and what is least still to do."""
    ends = window_end(requirements.window, standing.enrolled, facts, standing.as_of)
    needed = sum(one.needed for one in standing.categories)
    return Summary(
        max(needed, standing.further_minutes),
        standing.credited_minutes,
        standing.waiting_minutes,
        standing.further_minutes,
        ends.isoformat() if ends else "",
    )


def _fingerprint(work: Work, enrolment: Enrolment, today: date) -> str:
    """Changes with every event about this enrolment, and with the day, on which lapses and documents depend."""
    parts = (enrolment.requirements_id, work.ledger.changed_at(enrolment.id), repr(facts_of(work, enrolment)), today)
    return hashlib.sha256("|".join(map(str, parts)).encode()).hexdigest()
