"""When all will be done: the trainee's own weeks, leaning on the school's, drawn again and again.

What is still to do is taken from the program's plan: the least by category, and the rest in any. A drawn week's time
goes first where it usually goes and where it is lacking, never more into one category than is usual in a week; done is
a draw when every category's least and the sum are. Not looked at: who hosts or is taught (a rule of variety beyond its
minutes), gates still shut, shares that change with what else is done, and time that will earn nothing. All dates are for a trainee who goes on;
that this one stops is a probability of its own.
"""

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from assessments.hours.forecast_cohort import BLOCK, CohortPace, fortnights, level_of, tenths
from assessments.hours.forecast_weeks import WEEK, Weeks, monday_of
from assessments.hours.standing import Standing

DRAWS = 400
HORIZON = 208
LEAST_WEEKS, LEAST_OTHERS, ENOUGH_ALONE = 4, 5, 26
MEMORY = 26.0
OWN_BLOCKS_FROM = 26.0
# How far a pace moves on beyond what blocks of weeks show, as a share of their spread: set on the simulated schools, and
# tried on other seeds of them.
DRIFT = 0.7


@dataclass(frozen=True, slots=True)
class Needs:
    """Minutes still to earn: the least by category (in the set's order), and all together; where each may still go."""

    least: np.ndarray
    total: float

    @property
    def met(self) -> bool:
        return self.total <= 0 and not (self.least > 0).any()


@dataclass(frozen=True, slots=True)
class Forecast:
    """Dates by which all is done with 10, 50 and 90 % if the trainee goes on; None past the horizon.

    `in_window` is the probability of making the window's end, `stops` that of never being done because the trainee
    stops: both of all that may happen. `withheld` is a code where there is too little to go on, with no figures then.
    """

    withheld: str = ""
    early: date | None = None
    middle: date | None = None
    late: date | None = None
    in_window: float | None = None
    stops: float = 0.0
    weeks: int = 0
    silent: int = 0


def needs_of(standing: Standing) -> Needs:
    """What a standing leaves to do once everything that waits is signed."""
    least = np.array([max(0, one.further_at_least - one.waiting) for one in standing.categories], float)
    return Needs(least, max(standing.further_minutes - standing.waiting_minutes, float(least.sum())))


def forecast(
    own: Weeks, needs: Needs, cohort: CohortPace, as_of: date, ends: date | None, chance: np.random.Generator
) -> Forecast:
    """The forecast on the day `as_of` for a window that ends on `ends` (None if there is none)."""
    reason = withheld(own, needs, cohort)
    if reason:
        return Forecast(reason, weeks=len(own), silent=own.silent)
    stopped = _stopped_already(own, cohort)
    places = _weeks_until_done(own, needs, cohort, as_of, chance)
    going_on = (1 - stopped) * (1 - cohort.stop_rate) ** np.minimum(places, HORIZON)
    in_window = None
    if ends is not None:
        last = (ends - monday_of(as_of)).days // 7
        in_window = float(((places <= last) * going_on).mean())
    early, middle, late = (_day(as_of, place) for place in np.quantile(places, (0.1, 0.5, 0.9), method="inverted_cdf"))
    return Forecast("", early, middle, late, in_window, float(1 - going_on.mean()), len(own), own.silent)


def withheld(own: Weeks, needs: Needs, cohort: CohortPace) -> str:
    """Why there is no forecast; empty if there is one."""
    if needs.met:
        return "complete"
    if len(own) < LEAST_WEEKS or not own.totals.any():
        return "few-weeks"
    if cohort.trainees < LEAST_OTHERS and len(own) < ENOUGH_ALONE:
        return "few-others"
    return ""


def _stopped_already(own: Weeks, cohort: CohortPace) -> float:
    """Whether so long a silence is that of somebody who stopped, by how often either begins."""
    if own.silent < 2:
        return 0.0
    return cohort.stop_rate / (cohort.stop_rate + cohort.gap_rate(own.silent))


def _weeks_until_done(
    own: Weeks, needs: Needs, cohort: CohortPace, as_of: date, chance: np.random.Generator
) -> np.ndarray:
    """For each draw the number of weeks, the present one counted, after which nothing is left; HORIZON + 1 if never."""
    time = _drawn_time(own, cohort, as_of, chance)
    least = np.tile(needs.least, (DRAWS, 1))
    total = np.full(DRAWS, needs.total)
    mix = _mix(own)
    most = cohort.most_a_week if len(cohort.most_a_week) else np.full(len(mix), np.inf)
    places = np.full(DRAWS, HORIZON + 1)
    for week in range(HORIZON):
        course = cohort.course[tenths(1 - total / max(own.needed, 1.0))]
        spend(least, total, time[:, week] * course, mix, most)
        done = (total <= 0) & (places > HORIZON)
        places[done] = week + 1
        if week % 4 == 3 and (places <= HORIZON).all():
            break
    return places


def spend(least: np.ndarray, total: np.ndarray, time: np.ndarray, mix: np.ndarray, most: np.ndarray) -> None:
    """Take one week's time of each draw off what is left, in place; two rounds, the second for what found no room."""
    rest = np.maximum(total - least.sum(axis=1), 0.0)
    room = np.minimum(least, most)
    lacking = least / np.maximum(least.sum(axis=1, keepdims=True), 1e-9)
    wishes = (mix + lacking) * (room > 0)
    for _ in range(2):
        share = wishes * (time / np.maximum(wishes.sum(axis=1), 1e-9))[:, None]
        given = np.minimum(share, room)
        least -= given
        room = room - given
        wishes = wishes * (room > 0)
        time = time - given.sum(axis=1)
    rest = np.maximum(rest - np.maximum(time, 0.0), 0.0)
    total[:] = np.where(least.sum(axis=1) < 0.5, 0.0, least.sum(axis=1)) + rest


def _mix(own: Weeks) -> np.ndarray:
    """How the trainee's time was shared out lately."""
    weights = 0.5 ** (np.arange(len(own))[::-1] / MEMORY)
    done = weights @ own.minutes
    return done / max(done.sum(), 1e-9)


def _drawn_time(own: Weeks, cohort: CohortPace, as_of: date, chance: np.random.Generator) -> np.ndarray:
    """Minutes of each draw and coming week: a drawn level, the year's course, and blocks of weeks as they were."""
    level, rests_on = level_of(own, cohort.usual(own), MEMORY)
    error = cohort.within * np.sqrt(BLOCK / rests_on)
    trust = cohort.apart**2 / (cohort.apart**2 + error**2)
    middle = trust * np.log(level) + (1 - trust) * cohort.level
    spread = np.sqrt(trust * error**2 + (DRIFT * cohort.within) ** 2)
    levels = np.exp(middle + spread * chance.standard_normal(DRAWS))
    ahead = Weeks(monday_of(as_of), own.minutes[:0], own.needed)
    time = levels[:, None] * cohort.season[fortnights(ahead, HORIZON)] * _drawn_ratios(own, level, cohort, chance)
    time[:, 0] *= (7 - as_of.weekday()) / 7
    _still_away(time, own, cohort, chance)
    return time


def _drawn_ratios(own: Weeks, level: float, cohort: CohortPace, chance: np.random.Generator) -> np.ndarray:
    """Blocks of weeks, from the trainee's own or the others', the more from the own the more there are."""
    mine = own.totals / (level * cohort.usual(own))
    mine = mine / max(mine.mean(), 1e-9)
    pool = [mine, *cohort.ratios]
    lengths = np.maximum(np.array([len(one) for one in pool], float) - BLOCK + 1, 0)
    shares = lengths.copy()
    others = lengths[1:].sum()
    own_share = lengths[0] / (lengths[0] + OWN_BLOCKS_FROM) if others else 1.0
    if not lengths[0]:
        own_share = 0.0
    shares[0] = own_share
    shares[1:] *= (1 - own_share) / max(others, 1e-9)
    if not shares.sum():
        return np.ones((DRAWS, HORIZON))
    joined = np.concatenate(pool)
    begins = np.concatenate([[0], np.cumsum([len(one) for one in pool])])[:-1]
    blocks = -(-HORIZON // BLOCK) + 1
    whose = chance.choice(len(pool), size=(DRAWS, blocks), p=shares / shares.sum())
    starts = begins[whose] + (chance.random((DRAWS, blocks)) * lengths[whose]).astype(int)
    drawn = joined[starts[:, :, None] + np.arange(BLOCK)].reshape(DRAWS, -1)
    return drawn[:, :HORIZON]


def _still_away(time: np.ndarray, own: Weeks, cohort: CohortPace, chance: np.random.Generator) -> None:
    """Who is silent now stays so for as long as such spells used to go on."""
    silent = own.silent
    if silent < 2:
        return
    longer = cohort.gaps[cohort.gaps >= silent] - silent
    left = chance.choice(longer, DRAWS) if len(longer) >= 5 else chance.geometric(0.25, DRAWS) - 1
    time[np.arange(HORIZON) < left[:, None]] = 0.0


def _day(as_of: date, place: float) -> date | None:
    """The Sunday of the week of that place."""
    return monday_of(as_of) + int(place) * WEEK - timedelta(days=1) if place <= HORIZON else None
