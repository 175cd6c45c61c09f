import krippendorff
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from assessments.measurement.krippendorff_alpha import alpha, alpha_of_marks
from tests.assessments.measurement.published_tables import KRIPPENDORFF, counted

PRINTED = {"nominal": 0.743, "ordinal": 0.815, "interval": 0.849, "ratio": 0.797}
FIVE = np.arange(1.0, 6.0)


@pytest.mark.parametrize("metric", PRINTED)
def test_alpha_is_krippendorffs_worked_example(metric):
    # Krippendorff (2011), 12 units with missing ratings.
    statistic = alpha(counted(KRIPPENDORFF, FIVE), metric, FIVE, np.random.default_rng(1))
    assert statistic.estimate == pytest.approx(PRINTED[metric], abs=0.0005)
    assert statistic.low <= statistic.estimate <= statistic.high
    assert statistic.n == 11


@given(st.integers(0, 2**32 - 1), st.sampled_from(["nominal", "ordinal", "interval", "ratio"]))
def test_alpha_is_that_of_the_krippendorff_library(seed, metric):
    chance = np.random.default_rng(seed)
    table = chance.integers(1, 5, (8, 3)).astype(float)
    table[chance.random(table.shape) < 0.2] = np.nan
    scale = np.arange(1.0, 6.0)
    counts = counted(table, scale)
    if len(np.unique(table[(counts.sum(axis=1) >= 2)][~np.isnan(table[counts.sum(axis=1) >= 2])])) < 2:
        return
    theirs = krippendorff.alpha(reliability_data=table.T, level_of_measurement=metric)
    assert alpha(counts, metric, scale, chance).estimate == pytest.approx(theirs, abs=1e-9)


def test_marks_too_many_to_count_give_the_same_interval_alpha():
    unit, examiner = np.nonzero(~np.isnan(KRIPPENDORFF))
    statistic = alpha_of_marks(unit, KRIPPENDORFF[unit, examiner], 12, np.random.default_rng(1))
    assert statistic.estimate == pytest.approx(0.849, abs=0.0005)


def test_alpha_is_undefined_without_variation_or_without_two_ratings_of_a_unit():
    same, single = np.array([[3, 0]] * 12), np.array([[1, 0], [0, 1]])
    for counts in (same, single):
        assert alpha(counts, "nominal", np.arange(2), np.random.default_rng(1)).estimate is None


def test_many_units_with_many_patterns_use_the_grouped_jackknife_and_few_patterns_the_bootstrap():
    chance = np.random.default_rng(5)
    true = chance.normal(0, 2, (3000, 1))
    marks = true + chance.normal(0, 1, (3000, 2))
    unit = np.repeat(np.arange(3000), 2)
    grouped = alpha_of_marks(unit, marks.ravel(), 3000, chance)
    # Interval alpha estimates the intraclass correlation, here 4/5; its error is (1 - .8^2)/sqrt(3000) (Fisher 1925).
    assert grouped.estimate == pytest.approx(0.8, abs=0.03)
    assert (grouped.high - grouped.low) / 2 == pytest.approx(1.96 * 0.36 / np.sqrt(3000), rel=0.35)
