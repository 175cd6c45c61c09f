import numpy as np
import pytest

from assessments.measurement.rasch.analysis import start_from
from assessments.measurement.rasch.joint import joint_fit
from assessments.measurement.rasch.marginal import marginal_fit
from assessments.measurement.rasch.model_choice import bic, choose, ratings_in_steps
from assessments.measurement.simulation.drawn_ratings import (
    category_chances,
    draw_ratings,
    even_truth,
    paired_plan,
    rated,
)
from tests.assessments.measurement.published_designs import lsat6

ALIKE = [[-1.0, 0.1, 0.9]]
APART = [[-2.0, 0.0, 2.0], [-0.3, 0.1, 0.2], [-1.0, 1.5, -0.5]]


def fit_of(design):
    everyone = np.zeros(len(design.candidates), np.int64)
    return marginal_fit(design, everyone, start_from(design, everyone, joint_fit(design)))


def chosen(steps, candidates=200, least=10):
    chance = np.random.default_rng(4)
    plan, truth = paired_plan(candidates, 4, 2, 3), even_truth(4, 2, 3, steps)
    ratings = draw_ratings(category_chances(plan, chance.normal(0, 1.2, candidates), truth), chance)
    scale, credit = rated(plan, ratings), rated(plan, ratings, "criterion")
    everyone = np.zeros(candidates, np.int64)
    one = choose(scale, fit_of(scale), credit, everyone, least)
    return one, choose(credit, fit_of(credit), scale, everyone, least)


def test_bic_is_the_printed_one():
    """Rizopoulos (2006) J Stat Softw 17(5), LSAT, one common slope: log-likelihood -2466.938, BIC 4975.322."""
    fit = fit_of(lsat6())
    assert fit.parameters == 6
    assert bic(fit.log_likelihood, fit.parameters, 1000) == pytest.approx(4975.322, abs=0.002)


@pytest.mark.parametrize(("steps", "advised"), [(ALIKE, "rating-scale"), (APART, "partial-credit")])
def test_the_steps_that_were_drawn_are_advised_whichever_was_fitted(steps, advised):
    one, other = chosen(steps)
    assert one.advised == other.advised == advised
    assert one.rating_scale == pytest.approx(other.rating_scale, abs=1e-3)
    assert one.partial_credit == pytest.approx(other.partial_credit, abs=1e-3)


def test_steps_that_few_ratings_rest_on_are_not_advised():
    one, _ = chosen(APART, candidates=12)
    assert one.advised == "rating-scale"
    assert one.partial_credit is None
    assert one.why_not.code == "few-in-a-step"
    assert one.least_in_a_step < 10


def test_the_fewest_ratings_in_a_step_are_counted_group_by_group():
    design = lsat6()
    right = np.bincount(design.cell, design.category)
    assert ratings_in_steps(design) == min(right.sum(), 5000 - right.sum())
