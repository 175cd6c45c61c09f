"""The standing of an enrolment from set, entries and facts; and a summary of it kept for the cohort."""

import hashlib
import json
from dataclasses import asdict, dataclass, replace
from datetime import date
from functools import lru_cache

from app.files.requirements import requirements_from_text
from app.queries.forecasts import KeptForecast, forecast_of, kept_forecast, kept_weeks, pace_of, weeks_now
from app.storage.editions import Edition
from app.storage.enrolments import Enrolment, ShownDocument, TimeGranted
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
    """What a cohort's line needs of a standing; minutes are whole, `ends` an ISO day.

    `weeks` (KeptWeeks) and `forecast` (KeptForecast) as JSON has them; None where they were not asked for.
    """

    needed: int
    credited: int
    waiting: int
    further: int
    ends: str
    weeks: dict | None = None
    forecast: dict | None = None


def standing_of(
    work: Work, enrolment: Enrolment, today: date, facts: Facts | None = None
) -> tuple[RequirementSet, Standing]:
    """The requirement set an enrolment is on, and where it stands today; `facts` if they were read already."""
    requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
    return requirements, standing_by(work, enrolment, requirements, today, facts)


def standing_by(
    work: Work, enrolment: Enrolment, requirements: RequirementSet, today: date, facts: Facts | None = None
) -> Standing:
    """Where an enrolment would stand today by any requirement set."""
    entries = [entry for session in work.ledger.of_enrolment(enrolment.id) for entry in entries_of(session)]
    facts = facts_of(work, enrolment) if facts is None else facts
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
    one = enrolment.id
    return _facts(
        work.exams.passed(one),
        work.enrolments.modules_done(one),
        work.enrolments.documents(one),
        work.enrolments.time_granted(one),
    )


def _facts(
    passed: dict[str, date], modules: dict[str, date], documents: list[ShownDocument], granted: list[TimeGranted]
) -> Facts:
    by_start = sorted(documents, key=lambda shown: shown.valid_from)
    return Facts(
        practicals=passed,
        modules=modules,
        documents={shown.kind: Span(shown.valid_from, shown.valid_to) for shown in by_start},
        extensions=tuple(one.last_day for one in granted if one.kind == "extension"),
        leave=tuple(Span(one.first_day, one.last_day) for one in granted if one.kind == "leave"),
    )


def summaries_of(
    work: Work, enrolments: list[Enrolment], today: date
) -> dict[str, tuple[Summary, KeptStanding | None]]:
    """By enrolment the kept summary if nothing it follows from has changed, else a new one and what to keep of it.

    What all of them follow from is read at once, however many there are.
    """
    kept, changed = work.standings.all(), work.ledger.all_changed_at()
    passed, modules = work.exams.all_passed(), work.enrolments.all_modules_done()
    documents, granted = work.enrolments.all_documents(), work.enrolments.all_time_granted()
    found, solved = {}, {}
    for one in enrolments:
        facts = _facts(passed[one.id], modules[one.id], documents[one.id], granted[one.id])
        fingerprint = _fingerprint(one, changed[one.id], facts, today)
        known = kept.get(one.id)
        if known is not None and known.fingerprint == fingerprint:
            found[one.id] = Summary(**json.loads(known.result)), None
        else:
            solved[one.id] = _Solved(one, facts, fingerprint, *standing_of(work, one, today, facts))
    return found | _with_forecasts(work, solved, kept)


@dataclass(frozen=True, slots=True)
class _Solved:
    """A standing that was solved anew, with what it follows from."""

    enrolment: Enrolment
    facts: Facts
    fingerprint: str
    requirements: RequirementSet
    standing: Standing


def _with_forecasts(
    work: Work, solved: dict[str, _Solved], kept: dict[str, KeptStanding]
) -> dict[str, tuple[Summary, KeptStanding]]:
    """What was solved, with its weeks and what they foretell beside the weeks that are kept of the others."""
    if not solved:
        return {}
    weeks = {key: weeks_now(work, one.enrolment, one.requirements, one.standing) for key, one in solved.items()}
    own = {key: asdict(kept_weeks(weeks[key], one.enrolment.requirements_id)) for key, one in solved.items()}
    everybody = list(({key: _kept_weeks(one) for key, one in kept.items()} | own).values())
    paces = {one: pace_of(everybody, one) for one in {one.enrolment.requirements_id for one in solved.values()}}
    found = {}
    for key, one in solved.items():
        pace = paces[one.enrolment.requirements_id]
        ahead = forecast_of(one.enrolment, one.requirements, one.standing, one.facts, weeks[key], pace)
        summary = replace(
            summarised(one.requirements, one.standing, one.facts), weeks=own[key], forecast=asdict(kept_forecast(ahead))
        )
        found[key] = summary, KeptStanding(one.fingerprint, json.dumps(asdict(summary)))
    return found


def forecast_now(
    work: Work, enrolment: Enrolment, requirements: RequirementSet, standing: Standing, facts: Facts
) -> KeptForecast:
    """The forecast of one enrolment alone, leaning on what is kept of the others."""
    own = weeks_now(work, enrolment, requirements, standing)
    others = {key: _kept_weeks(one) for key, one in work.standings.all().items()}
    others[enrolment.id] = asdict(kept_weeks(own, enrolment.requirements_id))
    pace = pace_of(others.values(), enrolment.requirements_id)
    return kept_forecast(forecast_of(enrolment, requirements, standing, facts, own, pace))


def _kept_weeks(kept: KeptStanding) -> dict | None:
    return json.loads(kept.result).get("weeks")


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


def _fingerprint(enrolment: Enrolment, changed: str, facts: Facts, today: date) -> str:
    """Changes with every event about this enrolment, and with the day, on which lapses and documents depend."""
    parts = (enrolment.requirements_id, enrolment.enrolled_on, changed, repr(facts), today)
    return hashlib.sha256("|".join(map(str, parts)).encode()).hexdigest()
