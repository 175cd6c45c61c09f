import numpy as np
import pytest

from assessments.measurement.detection import detection, pooled_detection


def test_sensitivity_and_criterion_are_those_of_stanislaw_and_todorov():
    # Stanislaw & Todorov (1999): 50 of 50 hits, 17 of 25 false alarms, 1/(2N) rule: d' 1.86, c -1.40, A' .82.
    found = detection(50, 50, 17, 25, "half")
    assert found.hit_rate == 0.99
    assert found.d_prime.estimate == pytest.approx(1.86, abs=0.005)
    assert found.criterion.estimate == pytest.approx(-1.40, abs=0.005)
    assert found.ln_beta == pytest.approx(-2.60, abs=0.005)
    assert found.a_prime == pytest.approx(0.82, abs=0.005)


def test_the_log_linear_correction_is_hautus():
    # Hautus (1995): (h + .5) / (s + 1); error as of a probit regression with .5 added (statsmodels 0.15): 0.585166.
    found = detection(50, 50, 17, 25)
    assert found.hit_rate == 50.5 / 51
    assert found.d_prime.estimate == pytest.approx(1.885343, abs=5e-7)
    assert found.se == pytest.approx(0.585166, abs=5e-7)


@pytest.mark.parametrize(
    ("hits", "false_alarms", "printed"),
    [(99, 1, 4.65), (90, 10, 2.56), (80, 20, 1.68), (70, 30, 1.05), (60, 40, 0.51), (90, 40, 1.53)],
)
def test_d_prime_is_the_printed_table(hits, false_alarms, printed):
    # Macmillan & Creelman (2005), table of d' = z(H) - z(F).
    found = detection(hits, 100, false_alarms, 100, "none")
    assert found.d_prime.estimate == pytest.approx(printed, abs=0.0051)


def test_rates_of_all_or_none_are_undefined_without_a_correction():
    found = detection(10, 10, 2, 10, "none")
    assert found.d_prime.estimate is None
    assert found.d_prime.withheld.code == "all-or-none"


def test_an_observer_without_sound_clips_has_no_sensitivity():
    assert detection(5, 10, 0, 0).d_prime.estimate is None


def test_one_observer_pooled_is_that_observer():
    one = detection(9, 12, 2, 12)
    pooled, se = pooled_detection(np.array([[9, 12, 2, 12]]))
    assert pooled.estimate == pytest.approx(one.d_prime.estimate, abs=1e-8)
    assert se == pytest.approx(one.se, abs=1e-8)


def test_pooling_keeps_the_sensitivity_that_observers_share_though_their_tendencies_differ():
    # Rates of d' = 2 at criteria -1, 0 and 1 (normal table): .9772/.5, .8413/.1587, .5/.0228.
    rates = [(0.97725, 0.5), (0.84134, 0.15866), (0.5, 0.02275)]
    counts = np.array([[100_000 * hit, 100_000, 100_000 * alarm, 100_000] for hit, alarm in rates])
    assert pooled_detection(counts)[0].estimate == pytest.approx(2, abs=0.001)


def test_the_pooled_error_is_that_of_three_observers_averaged_by_their_precision():
    counts = np.array([[9, 12, 2, 12], [8, 12, 3, 12], [10, 12, 4, 12]])
    each = [detection(*row) for row in counts]
    _, se = pooled_detection(counts)
    assert se == pytest.approx(1 / np.sqrt(sum(one.se**-2 for one in each)), rel=0.02)
