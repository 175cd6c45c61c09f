"""A trainee's credited minutes week by week and category by category: what a forecast goes by."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np

from assessments.hours.entry import Entry
from assessments.hours.standing import Standing
from curriculum.requirements.requirement_set import RequirementSet

WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Weeks:
    """`minutes` is (weeks, categories), from the Monday `first` on; only whole weeks. `needed` is all there is to earn."""

    first: date
    minutes: np.ndarray
    needed: float

    @property
    def totals(self) -> np.ndarray:
        return self.minutes.sum(axis=1)

    def __len__(self) -> int:
        return len(self.minutes)

    @property
    def silent(self) -> int:
        """How many of the last weeks, without a break, had no credited time."""
        active = np.flatnonzero(self.totals)
        return len(self) - 1 - int(active[-1]) if len(active) else len(self)

    @property
    def shares_done(self) -> np.ndarray:
        """Before each week, the share of all that is needed that was done."""
        before = np.concatenate([[0.0], np.cumsum(self.totals)[:-1]])[: len(self)]
        return before / max(self.needed, 1.0)

    def until(self, weeks: int) -> "Weeks":
        """The first so many weeks alone."""
        return replace(self, minutes=self.minutes[:weeks])


def monday_of(day: date) -> date:
    return day - timedelta(days=day.weekday())


def weeks_of(requirements: RequirementSet, entries: Iterable[Entry], standing: Standing) -> Weeks:
    """The whole weeks between enrolment (or the first entry) and the day of the standing.

    Counted is what is credited, and what waits for a signature as if it were signed: of that, whole minutes go to the
    first category that accepts them.
    """
    entries = {one.id: one for one in entries}
    days = [one.date for one in entries.values()]
    begins = standing.enrolled or min(days, default=standing.as_of)
    first = monday_of(begins + timedelta(days=6))
    places = {one.id: place for place, one in enumerate(requirements.categories)}
    minutes = np.zeros((max(0, (monday_of(standing.as_of) - first).days // 7), len(places)))
    for given in standing.given:
        _add(minutes, first, entries[given.entry].date, places[given.category], given.minutes)
    for aside in standing.set_aside:
        if aside.reason == "waiting":
            entry = entries[aside.entry]
            place = next((places[one.id] for one in requirements.categories if entry.matches(one.accepts)), None)
            if place is not None:
                _add(minutes, first, entry.date, place, aside.minutes)
    return Weeks(first, minutes, standing.credited_minutes + standing.further_minutes)


def _add(minutes: np.ndarray, first: date, day: date, place: int, some: int) -> None:
    week = (day - first).days // 7
    if 0 <= week < len(minutes):
        minutes[week, place] += some
