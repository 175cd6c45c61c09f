"""A few runs of every study, fixed in seed, against wide bounds that a wrong formula would leave.

The bounds allow for few runs; `throughline simulate` has the narrow ones, and its results stand in docs/measurement.md.
"""

from dataclasses import replace

import numpy as np
import pytest

from assessments.measurement.simulation.studies import STUDIES
from assessments.measurement.simulation.study import Finding, Measure, Study, covers, draw, findings

SEED = 7
BOUNDS = {
    ("recovery", 6): {
        "rating-scale/joint/stretch": (1.04, 1.22),
        "rating-scale/marginal/stretch": (0.92, 1.10),
        "rating-scale/conditional/stretch": (0.92, 1.10),
        "rating-scale/marginal/rmse": (0.05, 0.14),
        "rating-scale/marginal/cover": (0.83, 1.0),
        "partial-credit/marginal/steps": (0.92, 1.08),
        "partial-credit/conditional/steps": (0.92, 1.08),
        "partial-credit/marginal/steps rmse": (0.06, 0.18),
    },
    ("measures", 8): {
        "none/severities": (0.85, 1.0),
        "none/plain": (0.92, 0.975),
        "none/lifted": (0.92, 0.985),
        "none/fair": (0.91, 0.975),
        "some/plain": (0.68, 0.84),
        "some/lifted": (0.86, 0.96),
    },
    ("agreement", 30): {
        "kappa/150": (0.85, 1.0),
        "kappa_quadratic/40": (0.83, 1.0),
        "ac1/40": (0.85, 1.0),
        "fleiss/40": (0.85, 1.0),
        "alpha_ordinal/150": (0.85, 1.0),
        "icc_a_1/40": (0.85, 1.0),
        "limits/40": (0.85, 1.0),
    },
    ("generalizability", 10): {
        "two/phi": (0.75, 1.0),
        "two/jackknife": (0.75, 1.0),
        "three/jackknife": (0.75, 1.0),
        "three/bias": (-0.06, 0.04),
    },
    ("cut-scores", 60): {
        "regression/30": (0.88, 1.0),
        "contrasting/120": (0.86, 1.0),
        "angoff/10": (0.86, 1.0),
        "regression error/60": (0.5, 0.95),
    },
    ("links", 25): {
        "joined/0": (1.0, 1.0),
        "joined/1": (1.0, 1.0),
        "rank": (1.0, 1.0),
        "sparse": (0.4, 0.95),
        "weak/1": (0.9, 1.0),
        "weak/15": (0.0, 0.1),
    },
    ("drift", 25): {
        "slope/false": (0.0, 0.2),
        "slope/1.5": (0.6, 1.0),
        "pairs/false": (0.0, 0.24),
        "pairs/1": (0.8, 1.0),
    },
    ("audit", 3): {
        "ratio": (0.65, 1.4),
        "even": (0.0, 0.25),
        "abler/2": (0.8, 1.0),
    },
    ("consistency", 60): {
        "livingston-lewis/agreement": (-0.01, 0.015),
        "huynh/agreement": (-0.015, 0.005),
        "rudner/agreement": (0.0, 0.02),
    },
}


def once_over(name, runs):
    study = STUDIES[name]
    return {finding.measure.key: finding for finding in findings(study, list(draw(study, runs, chance())))}


def chance():
    return np.random.default_rng(SEED)


@pytest.mark.parametrize(("study", "bounds"), BOUNDS.items(), ids=[name for name, _ in BOUNDS])
def test_known_parameters_are_found_again(study, bounds):
    found = once_over(*study)
    values = {key: found[key].value for key in bounds}
    assert {key: value for key, value in values.items() if not bounds[key][0] <= value <= bounds[key][1]} == {}


def test_every_study_is_looked_at():
    own_tests = {"forecast", "oddities"}  # in tests/assessments/hours
    assert {name for name, _ in BOUNDS} | own_tests == set(STUDIES)


def test_intervals_half_as_wide_would_be_noticed():
    """The check itself: normal intervals with half their width hold the truth in 67 per cent (normal table)."""

    def once(chance):
        mean = chance.standard_normal(40) / 5
        return {"right": covers(mean - 0.392, mean + 0.392, 0.0), "half": covers(mean - 0.196, mean + 0.196, 0.0)}

    measures = tuple(Measure(key, "share", key, 0.93, 0.97) for key in ("right", "half"))
    study = Study("normal", "", once, measures, 30)
    right, half = findings(study, list(draw(study, 100, chance())))
    assert right.as_expected
    assert half.falls_short
    assert half.value == pytest.approx(0.673, abs=0.03)
    assert half.error == pytest.approx(np.sqrt(0.673 * 0.327 / 4000), rel=0.3)


def test_a_slope_is_that_of_least_squares():
    true = np.array([-1.0, 0.0, 2.0, 3.0])
    runs = [{"slope": np.vstack([true, 1.2 * true + shift])} for shift in (0.1, -0.1)]
    study = Study("line", "", lambda chance: {}, (Measure("slope", "slope", "", 1.1, 1.3),), 2)
    (found,) = findings(study, runs)
    both = np.polyfit(np.tile(true, 2), np.concatenate([run["slope"][1] for run in runs]), 1)
    assert found.value == pytest.approx(both[0])
    assert found.as_expected


def test_a_run_is_the_same_whatever_the_number_of_runs():
    study = STUDIES["cut-scores"]
    few, many = (list(draw(study, runs, chance())) for runs in (2, 4))
    assert all((few[1][key] == many[1][key]).all() for key in few[1])


def test_without_runs_there_is_no_answer_and_no_verdict_of_well():
    study = STUDIES["consistency"]
    found = findings(study, [])
    assert not any(finding.as_expected for finding in found)


def test_what_chance_explains_does_not_fall_short():
    finding = Finding(Measure("x", "share", "", 0.93, 0.97), 0.90, 0.02, 50, 50)
    assert not finding.as_expected
    assert not finding.falls_short
    assert replace(finding, error=0.01).falls_short
