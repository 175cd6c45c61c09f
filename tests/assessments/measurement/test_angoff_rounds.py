"""Against the paired t test and the product-moment correlation of a general library (scipy.stats)."""

import numpy as np
import pytest
from scipy.stats import pearsonr, ttest_rel

from assessments.measurement.angoff_rounds import compare_rounds

BEFORE = np.array([[0.6, 0.5, 0.9], [0.4, 0.3, 0.6], [0.7, 0.7, 0.8], [0.5, 0.8, 0.9], [0.3, 0.4, 0.5]])
AFTER = np.array([[0.6, 0.6, 0.8], [0.5, 0.5, 0.7], [0.6, 0.7, 0.7], [0.5, 0.7, 0.8], [0.5, 0.5, 0.6]])


def test_the_change_of_the_cut_is_a_paired_t_interval():
    found = compare_rounds(BEFORE, AFTER)
    usual = ttest_rel(AFTER.sum(axis=1), BEFORE.sum(axis=1)).confidence_interval()
    assert found.change.estimate == pytest.approx(AFTER.sum(axis=1).mean() - BEFORE.sum(axis=1).mean())
    assert (found.change.low, found.change.high) == pytest.approx((usual.low, usual.high))


def test_the_change_of_spread_is_the_correlation_of_sum_and_difference():
    found = compare_rounds(BEFORE, AFTER)
    first, second = BEFORE.sum(axis=1), AFTER.sum(axis=1)
    assert found.sd_p == pytest.approx(pearsonr(first + second, second - first).pvalue)
    assert found.sd_after < found.sd_before


def test_judges_who_all_stand_still_have_no_chance_of_a_change():
    found = compare_rounds(BEFORE, BEFORE)
    assert found.change.estimate == 0
    assert np.isnan(found.sd_p)
