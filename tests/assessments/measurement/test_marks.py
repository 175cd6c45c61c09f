import numpy as np
import pytest
from scipy.stats import f_oneway

from assessments.measurement.bland_altman import mark_differences
from assessments.measurement.cronbach import cronbach
from tests.assessments.measurement.published_tables import LARGE_METER, SHROUT_FLEISS, SMALL_METER, SUBJECTS_TWO_METHODS


def test_bias_and_spread_of_differences_are_bland_and_altmans():
    # Bland & Altman (1986): mean difference -2.1 l/min, standard deviation 38.8 l/min; 95 % interval -22.0 to 17.8.
    found = mark_differences(LARGE_METER, SMALL_METER)
    assert found.bias.estimate == pytest.approx(-2.1, abs=0.05)
    assert found.sd == pytest.approx(38.8, abs=0.05)
    assert (found.bias.low, found.bias.high) == pytest.approx((-22.0, 17.8), abs=0.06)


def test_limits_use_1_96_standard_deviations():
    # The paper's data with 1.96 in place of the paper's 2: -78.1 and 73.9.
    found = mark_differences(LARGE_METER, SMALL_METER)
    assert (found.low.estimate, found.high.estimate) == pytest.approx((-78.1, 73.9), abs=0.05)


def test_a_difference_that_grows_with_the_mark_is_flagged():
    level = np.linspace(10, 50, 30)
    found = mark_differences(level * 1.2, level + np.sin(np.arange(30)))
    assert "proportional" in {flag.code for flag in found.low.flags}


def test_repeated_pairs_add_the_variance_within_a_candidate():
    """Bland & Altman (1999) 5.3 on their table 4: mean difference 0.60, standard deviation 0.99 (both from memory).

    The two parts are those of a one-way analysis of variance of the differences, worked with scipy.stats.f_oneway.
    """
    subject, first, second = SUBJECTS_TWO_METHODS.T
    found = mark_differences(first, second, subject.astype(int))
    assert found.bias.estimate == pytest.approx(0.60, abs=0.005)
    assert found.sd == pytest.approx(0.99, abs=0.005)
    groups = [(first - second)[subject == one] for one in range(1, 13)]
    numbers = np.array([len(group) for group in groups])
    ratio = f_oneway(*groups).statistic
    usual = (60 - (numbers**2).sum() / 60) / 11
    assert found.between == pytest.approx(found.within * (ratio - 1) / usual)
    assert found.within == pytest.approx(sum(((group - group.mean()) ** 2).sum() for group in groups) / 48)
    alone = mark_differences(first, second).bias
    assert found.bias.high - found.bias.low > 1.5 * (alone.high - alone.low)


def test_pairs_of_different_candidates_are_what_they_were():
    alone = mark_differences(LARGE_METER, SMALL_METER)
    named = mark_differences(LARGE_METER, SMALL_METER, np.arange(len(LARGE_METER)))
    assert (named.low, named.high, named.bias, named.sd) == (alone.low, alone.high, alone.bias, alone.sd)


def test_the_middle_of_the_differences_is_shown_from_a_hundred_pairs():
    away = np.arange(201.0)
    found = mark_differences(away, np.zeros(201))
    assert found.middle == pytest.approx((5.0, 195.0))
    assert np.isnan(mark_differences(away[:99], np.zeros(99)).middle).all()


def test_alpha_is_the_consistency_form_of_the_intraclass_correlation():
    # Shrout & Fleiss (1979) p. 422: ICC(3,k) is Cronbach's alpha; table 4 prints .91.
    alpha, sem = cronbach(SHROUT_FLEISS)
    assert alpha.estimate == pytest.approx(0.91, abs=0.005)
    assert sem.estimate == pytest.approx(np.sqrt(4 * 1.02), abs=0.01)


def test_alpha_is_undefined_when_totals_do_not_differ():
    alpha, sem = cronbach(np.array([[1.0, 2.0], [2.0, 1.0]]))
    assert alpha.estimate is None
    assert sem.estimate is None
