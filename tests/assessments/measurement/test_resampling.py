import numpy as np
import pytest

from assessments.measurement.refitting import refit_intervals
from assessments.measurement.resampling import unit_interval


def share_of(successes: np.ndarray):
    return lambda weights: weights @ successes / weights.sum(axis=1)


def test_the_interval_of_a_share_is_near_the_textbooks():
    # Normal approximation for 60 of 120: .5 +- 1.96 sqrt(.25/120) = .4105 to .5895.
    low, high = unit_interval(share_of(np.array([1.0, 0])), np.array([60, 60]), 0.5, np.random.default_rng(2))
    assert (low, high) == pytest.approx((0.4105, 0.5895), abs=0.02)


def test_the_interval_of_a_high_share_leans_towards_the_middle():
    # Clopper CJ, Pearson ES (1934), 95 of 100: .887 to .984; the skew, not the last digit, is what BCa brings.
    low, high = unit_interval(share_of(np.array([1.0, 0])), np.array([95, 5]), 0.95, np.random.default_rng(2))
    assert 0.95 - low > high - 0.95


def test_a_jackknife_over_groups_of_units_gives_the_error_of_a_mean():
    chance = np.random.default_rng(2)
    values = chance.normal(0, 1, 4000)
    estimate = values.mean()
    low, high = unit_interval(share_of(values), np.ones(4000, int), estimate, chance)
    assert (high - low) / 2 == pytest.approx(1.98 * values.std() / np.sqrt(4000), rel=0.25)


@pytest.mark.parametrize("n", [400, 8000])
def test_refitting_gives_the_error_of_a_mean_by_either_way(n):
    chance = np.random.default_rng(7)
    values = chance.normal(10, 2, n)
    low, high = refit_intervals(values, lambda some: np.array([some.mean()]), chance)
    assert (high - low)[0] / 2 == pytest.approx(1.98 * 2 / np.sqrt(n), rel=0.25)
