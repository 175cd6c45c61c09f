import numpy as np
import pytest

from assessments.measurement.generalizability import decision, observed_shares
from assessments.measurement.jackknife import jackknife_error, phi_jackknife, with_rows
from assessments.measurement.simulation.phi_coverage import CROSSED, drawn_scores, true_phi
from assessments.measurement.variance import analogous_components
from assessments.measurement.variance_design import variance_design

# Entrance test and grade point average of 15 law schools: Efron B (1979) SIAM Review 21:460-480, table 1.
LAW_SCHOOLS = np.array(
    [
        (576, 3.39), (635, 3.30), (558, 2.81), (578, 3.03), (666, 3.44), (580, 3.07), (555, 3.00), (661, 3.43),
        (651, 3.36), (605, 3.13), (653, 3.12), (575, 2.74), (545, 2.76), (572, 2.88), (594, 2.96),
    ]
)  # fmt: skip


def test_the_error_of_a_correlation_is_the_printed_one():
    """Efron & Tibshirani (1993) An Introduction to the Bootstrap, ch. 11: correlation .776, jackknife error .143.

    The printed error is quoted from memory; Efron (1982) has .142 for the same data.
    """
    left = np.array([np.corrcoef(np.delete(LAW_SCHOOLS, one, axis=0).T)[0, 1] for one in range(15)])
    assert np.corrcoef(LAW_SCHOOLS.T)[0, 1] == pytest.approx(0.776, abs=5e-4)
    assert jackknife_error(left) == pytest.approx(0.1425, abs=1e-3)


def test_the_error_of_a_mean_is_the_usual_one():
    """Efron & Tibshirani (1993), equation 11.6: for a mean the jackknife is s / sqrt(n)."""
    scores = LAW_SCHOOLS[:, 0].astype(float)
    left = (scores.sum() - scores) / 14
    assert jackknife_error(left) == pytest.approx(scores.std(ddof=1) / np.sqrt(15))


def phi_of(design, share):
    return lambda smaller, components: decision(smaller, components, share).phi


def test_leaving_one_out_is_the_same_as_a_study_without_them():
    chance = np.random.default_rng(2)
    whole = drawn_scores(("candidate", "examiner"), (12, 5), CROSSED, chance)
    codes = [effect.codes for effect in whole.effects[:2]]
    kept = codes[0] != 3
    smaller = with_rows(whole, kept)
    again = variance_design(("candidate", "examiner"), [code[kept] for code in codes], whole.scores[kept])
    assert analogous_components(smaller) == pytest.approx(analogous_components(again))


def test_the_interval_holds_phi_and_narrows_with_more_examiners():
    widths = []
    for examiners in (4, 16):
        chance = np.random.default_rng(3)
        design = drawn_scores(("candidate", "examiner"), (60, examiners), CROSSED, chance)
        share = observed_shares(design)
        phi = phi_of(design, share)
        estimate = phi(design, analogous_components(design))
        found = phi_jackknife(design, 1, estimate, phi, chance)
        assert found.low < true_phi(CROSSED, {"examiner": examiners})[1] < found.high
        widths.append(found.high - found.low)
    assert widths[1] < widths[0]


def test_two_examiners_are_too_few_to_leave_one_out():
    chance = np.random.default_rng(3)
    design = drawn_scores(("candidate", "examiner"), (20, 2), CROSSED, chance)
    share = observed_shares(design)
    found = phi_jackknife(design, 1, 0.5, phi_of(design, share), chance)
    assert found.estimate is None
    assert found.withheld.code == "too-few-to-leave-out"
