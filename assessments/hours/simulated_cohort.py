"""An invented school's trainees, week by week, by known laws: what the forecast is tried on.

Nobody's log is behind it. The amounts are those of a 450-hour set as schools publish them (120 h of workshops, 100 h
observing, 110 h of own practice, 40 h assisting, 60 h practice teaching, 20 h supervised); pace, leave and drop-out are
assumptions: about eight hours a week, every fourth to fifth trainee stops, summers are slow.
"""

from dataclasses import dataclass, field, replace
from datetime import date, timedelta

import numpy as np

from assessments.hours.forecast_weeks import WEEK, Weeks, monday_of

CATEGORIES = ("workshop", "observation", "self_practice", "assisting", "practice_teaching", "supervised_teaching")
NEEDED = np.array([120, 100, 110, 40, 60, 20]) * 60.0
LIKED = np.array([0.0, 0.30, 0.34, 0.12, 0.18, 0.06])
MOST_A_WEEK = np.array([960, 480, 480, 300, 360, 120])
LENGTH = np.array([240, 120, 60, 120, 60, 60])
WATCH_FIRST, TEACH_AFTER = 10 * 60, 200 * 60
LAST_WEEK = 260


@dataclass(frozen=True, slots=True)
class School:
    """The laws of one invented school; rates are per week.

    `level` is the usual pace in minutes; `apart` how far trainees differ (log), `drift` how far one moves over months
    (log, standing), `noise` the coefficient of variation from week to week.
    """

    name: str
    level: float = 480.0
    apart: float = 0.30
    drift: float = 0.20
    noise: float = 0.55
    leave_rate: float = 0.004
    leave_weeks: tuple[int, int] = (2, 5)
    stop_rate: float = 0.0005
    summer: float = 0.85


SCHOOLS = {
    one.name: one
    for one in (
        School("leave", leave_rate=0.025, leave_weeks=(3, 11)),
        School("drop-out", stop_rate=0.006),
        School("season", summer=0.25),
    )
}


@dataclass(frozen=True, slots=True)
class SimulatedTrainee:
    """Everything that happens to one: `done` is the place of the week in which all is done, `stopped` of the last."""

    weeks: Weeks
    done: int | None
    stopped: int | None

    def until(self, day: date) -> "SimulatedTrainee":
        """What is known of it on the morning of a Monday."""
        known = max(0, (day - self.weeks.first).days // 7)
        minutes = self.weeks.minutes[:known]
        if known > len(minutes) and self.done is None:
            minutes = np.vstack([minutes, np.zeros((known - len(minutes), minutes.shape[1]))])
        return replace(self, weeks=replace(self.weeks, minutes=minutes))


def simulated_cohort(
    school: School, chance: np.random.Generator, trainees: int = 60, years: float = 4.0
) -> list[SimulatedTrainee]:
    """Trainees who enrol over so many years from January 2022 on."""
    start = date(2022, 1, 3)
    days = np.sort(chance.uniform(0, 365.25 * years, trainees))
    return [simulated_trainee(school, monday_of(start + timedelta(days=int(day))), chance) for day in days]


def simulated_trainee(school: School, first: date, chance: np.random.Generator) -> SimulatedTrainee:
    """One trainee from the Monday of enrolment until all is done, or who stops."""
    one = _Doing(school, first, chance)
    for week in range(LAST_WEEK):
        if chance.random() < school.stop_rate:
            return SimulatedTrainee(one.weeks(), None, week)
        one.live(week)
        if one.complete:
            return SimulatedTrainee(one.weeks(), week, None)
    return SimulatedTrainee(one.weeks(), None, None)


@dataclass(slots=True)
class _Doing:
    """A trainee at work."""

    school: School
    first: date
    chance: np.random.Generator
    lived: list[np.ndarray] = field(default_factory=list)
    credited: np.ndarray = field(default_factory=lambda: np.zeros(len(CATEGORIES)))
    away_until: int = 0
    mood: float = 0.0
    level: float = 0.0
    heed: float = 0.0
    liked: np.ndarray = field(default_factory=lambda: LIKED)

    def __post_init__(self) -> None:
        chance, school = self.chance, self.school
        self.level = school.level * np.exp(school.apart * chance.standard_normal())
        self.mood = school.drift * chance.standard_normal()
        self.heed = chance.uniform(0.3, 0.95)
        self.liked = chance.dirichlet(LIKED * 20 + 0.01)

    @property
    def complete(self) -> bool:
        return bool((self.credited >= NEEDED).all())

    def weeks(self) -> Weeks:
        return Weeks(self.first, np.array(self.lived).reshape(-1, len(CATEGORIES)), float(NEEDED.sum()))

    def live(self, week: int) -> None:
        """One week: on leave, or at work for as long as pace, season and chance give."""
        chance, school = self.chance, self.school
        done = np.zeros(len(CATEGORIES))
        self.mood = 0.96 * self.mood + school.drift * np.sqrt(1 - 0.96**2) * chance.standard_normal()
        if week >= self.away_until and chance.random() < school.leave_rate:
            self.away_until = week + int(chance.integers(*school.leave_weeks))
        if week >= self.away_until:
            shape = 1 / school.noise**2
            usual = self.level * np.exp(self.mood) * season_of(school, self.first + week * WEEK)
            self.work(week, usual * chance.gamma(shape, 1 / shape), done)
        self.lived.append(done)

    def work(self, week: int, minutes: float, done: np.ndarray) -> None:
        """Session by session; what a full category or a shut gate is given earns nothing."""
        spent = 0.0
        if week % 5 == 0 and self.credited[0] < NEEDED[0]:
            self._credit(0, 480.0, done)
            spent = 480.0
        while spent < minutes:
            place = int(self.chance.choice(len(CATEGORIES), p=self._weights()))
            length = min(LENGTH[place], max(30.0, 15 * np.ceil((minutes - spent) / 15)))
            self._credit(place, length, done)
            spent += length

    def _weights(self) -> np.ndarray:
        left = np.maximum(NEEDED - self.credited, 0.0) * self._open()
        left[0] = left[0] if self.credited[1:].sum() >= NEEDED[1:].sum() else 0.0
        lacking = left / left.sum() if left.sum() else self.liked
        weights = self.heed * lacking + (1 - self.heed) * self.liked
        return weights / weights.sum()

    def _open(self) -> np.ndarray:
        opened = np.ones(len(CATEGORIES))
        opened[4] = self.credited[1] >= WATCH_FIRST
        opened[5] = self.credited.sum() >= TEACH_AFTER
        return opened

    def _credit(self, place: int, minutes: float, done: np.ndarray) -> None:
        room = min(NEEDED[place] - self.credited[place], MOST_A_WEEK[place] - done[place])
        earned = min(minutes, max(room, 0.0)) * self._open()[place]
        self.credited[place] += earned
        done[place] += earned


def season_of(school: School, monday: date) -> float:
    """How much of the usual pace a week has: July and August, and the turn of the year, are slower."""
    middle = monday + timedelta(days=3)
    if middle.month in (7, 8):
        return school.summer
    if (middle.month, middle.day) >= (12, 22) or (middle.month, middle.day) <= (1, 4):
        return 0.2
    return 1.0
