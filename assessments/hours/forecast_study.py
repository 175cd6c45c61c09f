"""How often the forecast's 80 % bands held, on simulated schools whose trainees' later weeks it was not shown.

Looked at are trainees who go on to finish: the dates are for them. Held against it is what a reader would do by hand,
the rest divided by the last eight weeks' rate, with a band that is made as wide as it must be, in hindsight, to hold
80 % of the same forecasts.
"""

from collections.abc import Iterator
from datetime import date, timedelta

import numpy as np

from assessments.hours.forecast import Needs, forecast
from assessments.hours.forecast_cohort import cohort_pace
from assessments.hours.forecast_weeks import WEEK
from assessments.hours.simulated_cohort import NEEDED, SCHOOLS, School, SimulatedTrainee, simulated_cohort
from assessments.measurement.simulation.study import Drawn, Measure, Study
from curriculum.faults import N_

FIRST_LOOK, LOOKS_FROM, LOOKS = date(2023, 7, 3), 104, 6
RATE_WEEKS = 8
FAR = 208.0


def held_back(school: School, chance: np.random.Generator, trainees: int = 60, times: int = LOOKS) -> np.ndarray:
    """One cohort looked at on some Mondays: for each forecast (held, its width, the rate's ratio and length in weeks)."""
    cohort = simulated_cohort(school, chance, trainees)
    looks = [FIRST_LOOK + int(week) * WEEK for week in chance.choice(LOOKS_FROM, times, replace=False)]
    return np.array([one for day in looks for one in _on(day, cohort, chance)]).reshape(-1, 4)


def _on(day: date, cohort: list[SimulatedTrainee], chance: np.random.Generator) -> Iterator[tuple[float, ...]]:
    known = [(one, one.until(day).weeks) for one in cohort if one.weeks.first < day]
    pace = cohort_pace(weeks for _, weeks in known)
    for one, weeks in known:
        if one.done is None or one.done < len(weeks) or len(weeks) < RATE_WEEKS:
            continue
        least = np.maximum(NEEDED - weeks.minutes.sum(axis=0), 0.0)
        found = forecast(weeks, Needs(least, float(least.sum())), pace, day, None, chance)
        if found.early is None or found.middle is None:
            continue
        truth = one.weeks.first + (one.done + 1) * WEEK - timedelta(days=1)
        late = found.late or day + int(FAR) * WEEK
        rate = weeks.totals[-RATE_WEEKS:].mean()
        length = min(least.sum() / rate, FAR) if rate else np.nan
        yield (
            float(found.early <= truth <= late),
            (late - found.early).days / 7,
            ((truth - day).days + 1) / 7 / length,
            length,
        )


def once(chance: np.random.Generator) -> Drawn:
    found = {}
    for name, school in SCHOOLS.items():
        held, width, ratio, length = held_back(school, chance).T
        known = np.isfinite(length)
        low, high = np.quantile(ratio[known], (0.1, 0.9)) if known.any() else (np.nan, np.nan)
        found[f"{name}/held"] = held
        found[f"{name}/width"] = np.array([width[known].mean() / ((high - low) * length[known].mean())])
    return found


WORDS = {
    "leave": N_("a school with much leave"),
    "drop-out": N_("a school where many stop"),
    "season": N_("a school with slow summers"),
}
STUDY = Study(
    "forecast",
    N_("Forecast of the day when all hours are done, weeks held back"),
    once,
    tuple(
        measure
        for name, words in WORDS.items()
        for measure in (
            Measure(f"{name}/held", "share", N_("{school}: 80 % bands that held"), 0.75, 0.85, {"school": words}),
            Measure(
                f"{name}/width", "mean",
                N_("{school}: width, as a share of what the last eight weeks' rate needs to hold 80 %"),
                0.0, 1.0, {"school": words},
            ),
        )
    ),
    12,
)  # fmt: skip
