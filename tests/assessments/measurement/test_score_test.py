"""The score test against the fit that has the term in it: to first order they are the same (Rao 1948)."""

import numpy as np
import pytest

from assessments.measurement.rasch.interactions import refit
from assessments.measurement.rasch.joint import joint_fit
from assessments.measurement.rasch.score_test import one_step
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)

STEPS = [[-1.0, 0.1, 0.9], [-0.5, 0.0, 0.5], [-1.2, 0.4, 0.8]]


def drawn(harsher, steps_of=None, candidates=120):
    """Two of four examiners a candidate, two exercises, three criteria; examiner 2 harsher on criterion 1; seed 11."""
    chance = np.random.default_rng(11)
    plan = paired_plan(candidates, 4, 2, 3)
    truth = even_truth(4, 2, 3, STEPS)
    term = ((plan.examiner == 1) & (plan.criterion == 0)).astype(np.int64)
    chances = category_chances(plan, chance.normal(0, 1, candidates), truth, harsher * term)
    return rated(plan, draw_ratings(chances, chance), steps_of), plan, term


@pytest.mark.parametrize("steps_of", [None, "criterion"])
def test_a_small_term_is_what_the_fit_with_the_term_gives(steps_of):
    design, _, term = drawn(0.3, steps_of)
    joint = joint_fit(design)
    step, error = one_step(design, joint, term, 2, np.ones(len(term)))
    whole, whole_error, fit = refit(design, term, ("term",))
    assert step[1] / joint.shrink == pytest.approx(whole[0], rel=0.05)
    assert error[1] / joint.shrink**0.5 == pytest.approx(whole_error[0], rel=0.05)
    ratio = 2 * (fit.log_likelihood - joint.log_likelihood)
    assert (step[1] / error[1]) ** 2 == pytest.approx(ratio * joint.shrink, rel=0.05)


def test_a_term_that_severity_takes_in_whole_can_not_be_told():
    design, plan, _ = drawn(0.0)
    step, error = one_step(design, joint_fit(design), plan.examiner, 4, np.ones(len(plan.examiner)))
    assert np.isnan(step).all()
    assert np.isnan(error).all()
