import numpy as np
import pytest
from scipy.special import betaln, gammaln

from assessments.measurement.huynh import huynh, kr21
from assessments.measurement.livingston_lewis import effective_length, fitted_beta, livingston_lewis
from assessments.measurement.peng_subkoviak import peng_subkoviak
from assessments.measurement.rudner import rudner

SCORES = np.random.default_rng(8).binomial(30, np.random.default_rng(9).beta(9, 5, 900)).astype(float)


@pytest.mark.parametrize(
    ("z", "reliability", "printed"), [(0, 0.5, 0.67), (0, 0.8, 0.80), (0, 0.9, 0.86), (0, 0.7, 0.75)]
)
def test_normal_agreement_is_the_printed_table(z, reliability, printed):
    # Subkoviak MJ (1988) J Educ Meas 25:47-55, table of agreement.
    assert peng_subkoviak(z, reliability).agreement == pytest.approx(printed, abs=0.0051)


def test_normal_agreement_at_the_mean_is_sheppards():
    # Sheppard WF (1899): P(both above the mean) = 1/4 + arcsin(r)/(2 pi).
    for r in (0.3, 0.6, 0.95):
        assert peng_subkoviak(0, r).agreement == pytest.approx(0.5 + np.arcsin(r) / np.pi, abs=1e-12)


def test_normal_shares_of_wrong_results_are_those_of_a_large_simulation():
    chance = np.random.default_rng(4)
    true = chance.normal(0, 1, 400_000)
    seen = np.sqrt(0.8) * true + np.sqrt(0.2) * chance.normal(0, 1, true.size)
    found = peng_subkoviak(0.7, 0.8)
    worthy = true > 0.7 / np.sqrt(0.8)
    assert found.false_pass == pytest.approx(np.mean((seen > 0.7) & ~worthy), abs=0.002)
    assert found.false_fail == pytest.approx(np.mean((seen <= 0.7) & worthy), abs=0.002)


def test_huynh_is_the_closed_form_of_the_beta_binomial():
    # Huynh (1976): P(both pass) sums the bivariate beta-binomial over passing scores.
    r = kr21(SCORES, 30)
    a = (1 / r - 1) * SCORES.mean()
    b = 30 / r - 30 - a
    x = np.arange(31)
    ways = gammaln(31) - gammaln(x + 1) - gammaln(31 - x)
    both = x[:, None] + x
    joint = np.exp(ways[:, None] + ways + betaln(a + both, b + 60 - both) - betaln(a, b))
    assert joint.sum() == pytest.approx(1)
    for cut in (12, 19, 25):
        assert huynh(SCORES, cut, 30).agreement == pytest.approx(
            joint[cut:, cut:].sum() + joint[:cut, :cut].sum(), abs=1e-9
        )


def test_livingston_lewis_with_kr21_is_near_huynh_for_beta_binomial_scores():
    one, other = livingston_lewis(SCORES, 19, 30, kr21(SCORES, 30)), huynh(SCORES, 19, 30)
    assert one.agreement == pytest.approx(other.agreement, abs=0.02)
    assert one.accuracy + one.false_pass + one.false_fail == pytest.approx(1)


def test_effective_length_of_binomial_scores_with_kr21_is_the_number_of_tasks():
    # Livingston & Lewis (1995): the formula is KR-21 solved for the length.
    assert effective_length(SCORES.mean(), SCORES.var(ddof=1), 30, kr21(SCORES, 30)) == 30


def test_four_moments_find_the_beta_that_made_the_scores():
    # Exact moments of a beta-binomial: every score repeated by its share.
    x = np.arange(31)
    share = np.exp(gammaln(31) - gammaln(x + 1) - gammaln(31 - x) + betaln(9 + x, 5 + 30 - x) - betaln(9, 5))
    scores = np.repeat(x.astype(float), np.rint(share * 2_000_000).astype(int))
    found = fitted_beta(scores, 30)
    spread = found.a * found.b / ((found.a + found.b) ** 2 * (found.a + found.b + 1)) * (found.high - found.low) ** 2
    assert found.low + (found.high - found.low) * found.a / (found.a + found.b) == pytest.approx(9 / 14, abs=1e-4)
    assert spread == pytest.approx(9 * 5 / (14**2 * 15), rel=1e-3)


def test_scores_without_spread_decide_nothing():
    assert np.isnan(livingston_lewis(np.full(60, 20.0), 19, 30, 0.8).agreement)
    assert np.isnan(huynh(np.full(60, 20.0), 19, 30).agreement)


def test_rudner_with_equal_errors_is_near_the_normal_curve_for_the_same_candidates():
    # Estimates spread as N(0, 1) with error sqrt(.2) tell, as true scores, of reliability 1 / 1.2.
    spread = np.quantile(np.random.default_rng(1).normal(size=200_000), np.linspace(0.0005, 0.9995, 1000))
    found = rudner(spread, np.full(1000, np.sqrt(0.2)), 0.4)
    theory = peng_subkoviak(0.4 / np.sqrt(1.2), 1 / 1.2)
    assert found.agreement == pytest.approx(theory.agreement, abs=0.005)
    assert found.accuracy == pytest.approx(theory.accuracy, abs=0.005)


def test_rudner_accuracy_is_the_mean_of_the_likelier_result():
    # Rudner (2005): each candidate is placed rightly with the larger of both chances.
    found = rudner(np.array([-1.0, 0.5]), np.array([1.0, 0.5]), 0.0)
    assert found.accuracy == pytest.approx(0.8413447, abs=1e-6)
