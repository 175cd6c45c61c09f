"""When a trainee's hours will all be done, by their own weeks and those of the others on the same requirement set."""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

import numpy as np

from app.storage.enrolments import Enrolment
from app.storage.work import Work
from assessments.hours.calendar import window_end
from assessments.hours.entry import Facts
from assessments.hours.forecast import Forecast, forecast, needs_of
from assessments.hours.forecast_cohort import CohortPace, cohort_pace
from assessments.hours.forecast_weeks import Weeks, weeks_of
from assessments.hours.session import entries_of
from assessments.hours.standing import Standing
from curriculum.requirements.requirement_set import RequirementSet


@dataclass(frozen=True, slots=True)
class KeptWeeks:
    """Weeks as they are kept with a summary: an ISO Monday, whole minutes by week and category."""

    requirements_id: str
    first: str
    minutes: list[list[int]]
    needed: float

    def weeks(self) -> Weeks:
        return Weeks(date.fromisoformat(self.first), np.array(self.minutes, float), self.needed)


@dataclass(frozen=True, slots=True)
class KeptForecast:
    """A forecast as it is kept: ISO days, empty where there is none; `in_window` a share."""

    withheld: str = ""
    early: str = ""
    middle: str = ""
    late: str = ""
    in_window: float | None = None


def weeks_now(work: Work, enrolment: Enrolment, requirements: RequirementSet, standing: Standing) -> Weeks:
    entries = [entry for session in work.ledger.of_enrolment(enrolment.id) for entry in entries_of(session)]
    return weeks_of(requirements, entries, standing)


def kept_weeks(weeks: Weeks, requirements_id: str) -> KeptWeeks:
    return KeptWeeks(requirements_id, weeks.first.isoformat(), weeks.minutes.astype(int).tolist(), weeks.needed)


def pace_of(kept: Iterable[dict | None], requirements_id: str) -> CohortPace:
    """How those on a requirement set get on, from what is kept of them; however old, their whole weeks stay true."""
    known = (KeptWeeks(**one) for one in kept if one and one["minutes"])
    return cohort_pace(one.weeks() for one in known if one.requirements_id == requirements_id)


def forecast_of(
    enrolment: Enrolment, requirements: RequirementSet, standing: Standing, facts: Facts, own: Weeks, pace: CohortPace
) -> Forecast:
    """The forecast of one enrolment; its chance follows from who and when, so that a page shown twice says the same."""
    ends = window_end(requirements.window, standing.enrolled, facts, standing.as_of)
    seed = hashlib.sha256(f"{enrolment.id}|{standing.as_of}".encode()).digest()[:8]
    chance = np.random.default_rng(int.from_bytes(seed))
    return forecast(own, needs_of(standing), pace, standing.as_of, ends, chance)


def kept_forecast(found: Forecast) -> KeptForecast:
    days = (day.isoformat() if day else "" for day in (found.early, found.middle, found.late))
    return KeptForecast(found.withheld, *days, found.in_window)
