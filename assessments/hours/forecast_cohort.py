"""How the trainees of a school get on week by week: what a forecast leans on while its own trainee's weeks are few.

Blocks of weeks are resampled whole (moving block bootstrap: Künsch, Annals of Statistics 17, 1989), so that leave and
slack spells stay as long as they were; the year's course is divided out before and put back after. What one trainee's
weeks say of the pace is drawn toward the school's in proportion to how little they say (empirical Bayes: Efron &
Morris, JASA 70, 1975).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from assessments.hours.forecast_weeks import Weeks

BLOCK = 8
FORTNIGHTS, TENTHS = 26, 10
STOPPED_AFTER = 13
KNOWN_AFTER = 13
# What is believed before a school has shown anything, and how many weeks or trainees that belief is worth.
USUAL_LEVEL, USUAL_APART, USUAL_WITHIN = 420.0, 0.35, 0.35
TRAINEES_OF_BELIEF, WEEKS_OF_USUAL = 2.0, 12.0
STOPS_OF_BELIEF, WEEKS_OF_BELIEF = 1.0, 400.0
GAPS_OF_BELIEF, USUAL_GAP = 4.0, 3.0


@dataclass(frozen=True, slots=True)
class CohortPace:
    """`season` by fortnight of the year and `course` by tenth of the way (both 1 where usual): towards the end less of
    the time finds a place that still earns. `ratios` are each trainee's weeks over level, season and course.

    `level` is the log of the usual minutes a week, `apart` how far trainees differ, `within` how far the average of one
    trainee's `BLOCK` weeks strays (both as logs). `stop_rate` per week; `gaps` are lengths of silent spells that ended.
    """

    trainees: int
    level: float
    apart: float
    within: float
    season: np.ndarray
    course: np.ndarray
    ratios: tuple[np.ndarray, ...]
    most_a_week: np.ndarray
    stop_rate: float
    gaps: np.ndarray
    weeks_seen: float

    def usual(self, weeks: Weeks) -> np.ndarray:
        """What season and course let one expect of each week, 1 where usual."""
        return self.season[fortnights(weeks)] * self.course[tenths(weeks.shares_done)]

    def gap_rate(self, silent: int) -> float:
        """Per week, how often a spell of at least so many silent weeks begins that ends again."""
        believed = GAPS_OF_BELIEF * np.exp(-silent / USUAL_GAP)
        return float(((self.gaps >= silent).sum() + believed) / (self.weeks_seen + WEEKS_OF_BELIEF))


def tenths(shares: np.ndarray) -> np.ndarray:
    """Which tenth of the way each share lies in."""
    return np.clip((shares * TENTHS).astype(int), 0, TENTHS - 1)


def fortnights(weeks: Weeks, number: int | None = None) -> np.ndarray:
    """The fortnight of the year each week (so many from the first on) lies in, by its Thursday."""
    first = np.datetime64(weeks.first, "D") + 3
    days = first + 7 * np.arange(len(weeks) if number is None else number)
    of_year = (days - days.astype("datetime64[Y]").astype("datetime64[D]")).astype(int)
    return np.minimum(of_year // 14, FORTNIGHTS - 1)


def cohort_pace(everybody: Iterable[Weeks]) -> CohortPace:
    """What all known weeks of a school say together; a long silence at the end counts as having stopped."""
    everybody = [one for one in everybody if len(one)]
    active = [_until_stopped(one) for one in everybody]
    stops = sum(len(cut) < len(one) for cut, one in zip(active, everybody, strict=True))
    long = [one for one in active if len(one) >= KNOWN_AFTER and one.totals.any()]
    season, course = _season_and_course(long)
    expected = [season[fortnights(one)] * course[tenths(one.shares_done)] for one in long]
    levels = [level_of(one, usual)[0] for one, usual in zip(long, expected, strict=True)]
    ratios = tuple(one.totals / (level * usual) for one, level, usual in zip(long, levels, expected, strict=True))
    within = _within(ratios)
    level, apart = _levels(np.log(levels), np.array([within * np.sqrt(BLOCK / len(one)) for one in long]))
    weeks_seen = float(sum(len(one) for one in active))
    return CohortPace(
        len(long), level, apart, within, season, course, ratios, _most(long), (stops + STOPS_OF_BELIEF) / (weeks_seen + WEEKS_OF_BELIEF),
        np.array([gap for one in active for gap in _gaps(one.totals)], float), weeks_seen,
    )  # fmt: skip


def level_of(weeks: Weeks, usual: np.ndarray, memory: float = np.inf) -> tuple[float, float]:
    """Minutes in a usual week, and how many weeks that rests on; later weeks weigh more."""
    weights = 0.5 ** (np.arange(len(weeks))[::-1] / memory)
    level = weights @ weeks.totals / max(float(weights @ usual), 1e-9)
    return max(float(level), 1.0), float(weights.sum() ** 2 / (weights @ weights))


def _until_stopped(one: Weeks) -> Weeks:
    return one.until(len(one) - one.silent) if one.silent >= STOPPED_AFTER else one


def _season_and_course(long: Sequence[Weeks]) -> tuple[np.ndarray, np.ndarray]:
    """Each fortnight's and each tenth's share of the usual week, drawn toward 1; found in turns."""
    season, course = np.ones(FORTNIGHTS), np.ones(TENTHS)
    if not long:
        return season, course
    times, ways = [fortnights(one) for one in long], [tenths(one.shares_done) for one in long]
    time, way = np.concatenate(times), np.concatenate(ways)
    for _ in range(6):
        levels = [
            level_of(one, season[at] * course[on])[0] * np.ones(len(one))
            for one, at, on in zip(long, times, ways, strict=True)
        ]
        done = np.concatenate([one.totals for one in long]) / np.concatenate(levels)
        season = _shares(time, done, course[way], FORTNIGHTS)
        course = _shares(way, done, season[time], TENTHS)
    return season, course


def _shares(of: np.ndarray, done: np.ndarray, usual: np.ndarray, number: int) -> np.ndarray:
    all_done, expected = np.bincount(of, done, number), np.bincount(of, usual, number)
    shares = np.maximum((all_done + WEEKS_OF_USUAL) / (expected + WEEKS_OF_USUAL), 0.02)
    return shares / shares.mean()


def _within(ratios: Sequence[np.ndarray]) -> float:
    """How far a trainee's average over a block of weeks strays from the trainee's own."""
    means = [
        one[: len(one) // BLOCK * BLOCK].reshape(-1, BLOCK).mean(axis=1) for one in ratios if len(one) >= 2 * BLOCK
    ]
    squares = sum(float(((one - one.mean()) ** 2).sum()) for one in means)
    freedom = sum(len(one) - 1 for one in means)
    return float(np.sqrt((squares + 4 * USUAL_WITHIN**2) / (freedom + 4)))


def _levels(logs: np.ndarray, errors: np.ndarray) -> tuple[float, float]:
    """The middle of the trainees' log levels and how far they lie apart beyond their errors."""
    number = len(logs)
    middle = (logs.sum() + TRAINEES_OF_BELIEF * np.log(USUAL_LEVEL)) / (number + TRAINEES_OF_BELIEF)
    beyond = max(float(((logs - middle) ** 2).sum() - (errors**2).sum()), 0.0) if number else 0.0
    apart = np.sqrt((beyond + TRAINEES_OF_BELIEF * USUAL_APART**2) / (number + TRAINEES_OF_BELIEF))
    return float(middle), float(apart)


def _most(long: Sequence[Weeks]) -> np.ndarray:
    """By category, what is seldom surpassed in a week in which anything of it was done."""
    if not long:
        return np.array([])
    every = np.vstack([one.minutes for one in long])
    return np.array([np.quantile(some, 0.9) if len(some := column[column > 0]) else np.inf for column in every.T])


def _gaps(totals: np.ndarray) -> list[int]:
    """Lengths of silent spells between weeks with time in them."""
    active = np.flatnonzero(totals)
    return [int(gap) for gap in np.diff(active) - 1 if gap]
