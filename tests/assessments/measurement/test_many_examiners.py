import numpy as np
import pytest

from assessments.measurement import weights
from assessments.measurement.fleiss import category_kappas, fleiss_kappa, z_of_no_agreement
from assessments.measurement.gwet import agreement_coefficient
from assessments.measurement.percent import agreement
from tests.assessments.measurement.published_tables import FLEISS, GWET, KRIPPENDORFF, counted, units_of

FIVE = np.arange(1, 6)


def test_fleiss_kappa_is_the_papers():
    # Fleiss (1971): kappa .430, z = 17.65.
    statistic, _ = fleiss_kappa(FLEISS)
    assert statistic.estimate == pytest.approx(0.430, abs=0.0005)
    assert z_of_no_agreement(FLEISS, statistic.estimate) == pytest.approx(17.65, abs=0.005)


def test_kappa_of_each_diagnosis_is_the_papers():
    # Fleiss (1971), recomputed to three digits with R irr 0.84.
    assert category_kappas(FLEISS) == pytest.approx([0.245, 0.245, 0.520, 0.471, 0.566], abs=0.0005)


def test_the_error_for_an_interval_is_three_times_that_of_the_test_of_no_agreement():
    # Gwet (2008): 0.0542, where the test uses 0.0244.
    _, error = fleiss_kappa(FLEISS)
    assert error == pytest.approx(0.0542, abs=0.00005)


def test_fleiss_kappa_with_unequal_numbers_is_gwets_and_flagged():
    # Gwet (2014) p. 120: .76117 for Krippendorff's 12 units.
    statistic, _ = fleiss_kappa(counted(KRIPPENDORFF, FIVE))
    assert statistic.estimate == pytest.approx(0.76117, abs=5e-6)
    assert [flag.code for flag in statistic.flags] == ["unequal-numbers"]


def test_fleiss_kappa_is_undefined_when_all_ratings_are_in_one_category():
    assert fleiss_kappa(np.array([[4, 0]] * 20))[0].estimate is None


@pytest.mark.parametrize(
    ("weigh", "printed"),
    [
        (weights.identity, 0.77544),
        (weights.linear, 0.85874),
        (weights.quadratic, 0.91400),
        (weights.ordinal, 0.89894),
    ],
)
def test_agreement_coefficients_with_missing_ratings_are_gwets(weigh, printed):
    # Gwet (2014) p. 120 and ch. 3, for Krippendorff's 12 units.
    statistic, _ = agreement_coefficient(counted(KRIPPENDORFF, FIVE), weigh(5))
    assert statistic.estimate == pytest.approx(printed, abs=5e-6)


def test_the_error_of_ac1_with_missing_ratings_is_gwets():
    # Gwet (2014): 0.14295; interval 0.461 to 1 (percent agreement .81818).
    statistic, error = agreement_coefficient(counted(KRIPPENDORFF, FIVE), weights.identity(5))
    assert error == pytest.approx(0.14295, abs=5e-6)
    assert statistic.low == pytest.approx(0.461, abs=0.0005)
    assert statistic.high == 1


def test_agreement_coefficients_of_a_square_table_are_gwets():
    # Gwet (2014), two abstractors: AC1 .84933 (0.04322), AC2 quadratic .94024 (0.01792).
    counts = units_of(GWET)
    for weigh, printed, error_printed in ((weights.identity, 0.84933, 0.04322), (weights.quadratic, 0.94024, 0.01792)):
        statistic, error = agreement_coefficient(counts, weigh(3), large_sample=True)
        assert statistic.estimate == pytest.approx(printed, abs=5e-6)
        assert error == pytest.approx(error_printed, abs=5e-6)


def test_categories_of_the_scale_that_nobody_used_count_for_ac1():
    used, scale = counted(KRIPPENDORFF, FIVE), counted(KRIPPENDORFF, np.arange(1, 8))
    five, seven = (agreement_coefficient(table, np.eye(table.shape[1]))[0].estimate for table in (used, scale))
    assert seven > five


def test_percent_agreement_averages_pairs_within_units():
    # Gwet (2014): .81818 for Krippendorff's 12 units.
    statistic = agreement(counted(KRIPPENDORFF, FIVE), weights.identity(5))
    assert statistic.estimate == pytest.approx(0.81818, abs=5e-6)
    assert statistic.n == 11


def test_percent_agreement_of_two_has_wilsons_interval():
    # Newcombe RG (1998) Stat Med 17:857-872, table I: 15 of 148 gives .0624 to .1605.
    counts = np.array([[2, 0]] * 15 + [[1, 1]] * 133)
    statistic = agreement(counts, weights.identity(2))
    assert (statistic.low, statistic.high) == pytest.approx((0.0624, 0.1605), abs=0.00005)
