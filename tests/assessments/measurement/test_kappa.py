import numpy as np
import pytest

from assessments.measurement import weights
from assessments.measurement.kappa import kappa, standard_error
from tests.assessments.measurement.published_tables import COHEN, COHEN_DISAGREEMENT, GWET

PRINTED = 0.0005


@pytest.fixture
def chance():
    return np.random.default_rng(3)


def test_plain_kappa_is_cohens_worked_example(chance):
    # Cohen (1960) Educ Psychol Meas 20:37-46 gives .492.
    assert kappa(COHEN, weights.identity(3), chance)[0].estimate == pytest.approx(0.492, abs=PRINTED)


def test_kappa_by_a_table_of_disagreement_is_cohens_worked_example(chance):
    # Cohen (1968) Psychol Bull 70:213-220 gives .348.
    table = weights.from_disagreement(COHEN_DISAGREEMENT)
    assert kappa(COHEN, table, chance)[0].estimate == pytest.approx(0.348, abs=PRINTED)


@pytest.mark.parametrize(("weigh", "printed"), [(weights.identity, 0.79641), (weights.quadratic, 0.89216)])
def test_kappas_are_gwets_worked_example(weigh, printed, chance):
    # Gwet (2014), as printed with the abstractors' table.
    assert kappa(GWET, weigh(3), chance)[0].estimate == pytest.approx(printed, abs=5e-6)


def test_standard_errors_are_those_of_two_independent_packages():
    # Fleiss, Cohen & Everitt (1969), recomputed with statsmodels 0.15 and R vcd 1.4: 0.0510018, 0.0664537.
    assert standard_error(COHEN, weights.identity(3)) == pytest.approx(0.0510018, abs=5e-8)
    assert standard_error(COHEN, weights.quadratic(3)) == pytest.approx(0.0664537, abs=5e-8)


def test_kappa_is_undefined_when_all_ratings_are_in_one_category(chance):
    statistic, _ = kappa(np.diag([40, 0]), weights.identity(2), chance)
    assert statistic.estimate is None
    assert statistic.withheld.code == "no-variation"


def test_from_a_hundred_units_the_interval_is_analytic(chance):
    statistic, error = kappa(COHEN, weights.identity(3), chance)
    assert statistic.high - statistic.low == pytest.approx(2 * 1.959964 * error, rel=1e-6)


def test_below_a_hundred_units_the_interval_comes_from_resampling_and_the_same_seed_gives_the_same():
    table = COHEN // 4
    first, again, other = (kappa(table, weights.linear(3), np.random.default_rng(seed))[0] for seed in (1, 1, 2))
    assert (first.low, first.high) == (again.low, again.high)
    assert (first.low, first.high) != (other.low, other.high)
    assert first.low < first.estimate < first.high


def test_kappa_does_not_change_when_examiners_change_places(chance):
    for weigh in (weights.identity, weights.linear, weights.quadratic):
        one, other = (kappa(table, weigh(3), chance)[0].estimate for table in (COHEN, COHEN.T))
        assert one == pytest.approx(other, abs=1e-12)
