"""The forecast: held against weeks it was not shown, and against cases that can be done by hand.

The schools and their laws are in `assessments/hours/simulated_cohort.py`: what is done later is drawn there without regard to
how a forecast is made. The full tables are in docs/forecast.md.
"""

from datetime import date

import numpy as np
import pytest

from assessments.hours.forecast import Needs, forecast, spend, withheld
from assessments.hours.forecast_cohort import cohort_pace
from assessments.hours.forecast_study import held_back
from assessments.hours.forecast_weeks import Weeks
from assessments.hours.simulated_cohort import SCHOOLS

MONDAY = date(2026, 1, 5)


def weeks(*totals, needed=6000.0):
    return Weeks(MONDAY, np.array(totals, float)[:, None], needed)


def test_bands_hold_about_as_often_as_they_say_on_weeks_held_back():
    held, width, *_ = held_back(SCHOOLS["leave"], np.random.default_rng(5), trainees=24, times=3).T
    assert len(held) >= 20
    assert 0.6 <= held.mean() <= 0.95
    assert width.mean() < 60


def test_a_steady_pace_among_steady_others_is_carried_on():
    """300 minutes a week and 3,000 still to do are ten weeks."""
    others = [weeks(*[300] * 40, needed=1e9) for _ in range(20)]
    found = forecast(
        weeks(*[300] * 39, needed=1e9),
        Needs(np.array([3000.0]), 3000.0),
        cohort_pace(others),
        date(2026, 10, 5),
        date(2027, 12, 31),
        np.random.default_rng(1),
    )
    assert found.early <= date(2026, 12, 13) <= found.late
    assert abs((found.middle - date(2026, 12, 13)).days) <= 7
    assert found.in_window > 0.8


def test_a_category_takes_no_more_in_a_week_than_is_usual_there():
    least, total = np.array([[100.0, 500.0]]), np.array([700.0])
    spend(least, total, np.array([400.0]), np.array([1.0, 0.0]), np.array([300.0, 120.0]))
    assert least.tolist() == [[0.0, 380.0]]
    assert total.tolist() == [pytest.approx(380.0)]


@pytest.mark.parametrize(
    ("own", "left", "why"),
    [
        (weeks(60, 60, 60), 10.0, "few-weeks"),
        (weeks(0, 0, 0, 0, 0), 10.0, "few-weeks"),
        (weeks(60, 60, 60, 60, 60), 10.0, "few-others"),
        (weeks(*[60] * 26), 10.0, ""),
        (weeks(60), 0.0, "complete"),
    ],
)
def test_with_too_little_to_go_on_there_is_none(own, left, why):
    assert withheld(own, Needs(np.array([left]), left), cohort_pace([])) == why
