"""The advised link against a fit of the ratings with that link made."""

import numpy as np
import pytest

from assessments.measurement.rasch.analysis import fitted, link_contrast, weakest_link
from assessments.measurement.rasch.fit import expected
from assessments.measurement.rasch.link_advice import cheapest_link
from assessments.measurement.simulation.drawn_ratings import (
    RatingPlan,
    category_chances,
    draw_ratings,
    even_truth,
    plan_of_pairs,
    rated,
)


def with_a_weak_link(more=None):
    """Two teams of two examiners, joined by candidate 0 alone; `more` is an examiner and a candidate to meet; seed 8."""
    chance = np.random.default_rng(8)
    pairs = np.array([(0, 2), *((0, 1) if place % 2 else (2, 3) for place in range(1, 30))])
    plan, truth = plan_of_pairs(pairs, 2, 3), even_truth(4, 2, 3, [[-1.0, 0.1, 0.9]])
    ability = chance.normal(0, 1, 30)
    ratings = draw_ratings(category_chances(plan, ability, truth), chance)
    if more is None:
        return rated(plan, ratings)
    examiner, person = more
    again = plan_of_pairs(np.array([(examiner, examiner)]), 2, 3)
    once = slice(0, 6)
    extra = RatingPlan(np.full(6, person), again.examiner[once], again.exercise[once], again.criterion[once])
    added = draw_ratings(category_chances(extra, ability, truth), np.random.default_rng(9))
    names = ("candidate", "examiner", "exercise", "criterion")
    joined = RatingPlan(*(np.concatenate([getattr(plan, name), getattr(extra, name)]) for name in names))
    return rated(joined, np.concatenate([ratings, added]))


def fit_of(design):
    fit = fitted(design, np.zeros(30, np.int64), "joint", 0)
    return fit, expected(design, fit.full, fit.fit_ability)


def test_the_advised_link_lowers_the_error_as_it_says():
    design = with_a_weak_link()
    fit, found = fit_of(design)
    own = design.block(0)
    contrast = link_contrast(fit.covariance[own, own])
    advice = cheapest_link(design, found, fit.covariance[own, own], contrast, 0)
    assert advice.error_now == pytest.approx(weakest_link(design, fit, 0).error)
    person, examiner = int(advice.candidate), int(advice.examiner)
    assert (examiner < 2) != (person % 2 == 1) or person == 0
    better, _ = fit_of(with_a_weak_link((examiner, person)))
    after = np.sqrt(contrast @ better.covariance[own, own] @ contrast)
    assert after < 0.85 * advice.error_now
    assert advice.error_after == pytest.approx(after, rel=0.12)


def test_where_all_have_met_there_is_nothing_to_advise():
    chance = np.random.default_rng(8)
    plan, truth = plan_of_pairs(np.tile([0, 1], (30, 1)), 2, 3), even_truth(2, 2, 3, [[-1.0, 0.1, 0.9]])
    design = rated(plan, draw_ratings(category_chances(plan, chance.normal(0, 1, 30), truth), chance))
    fit, found = fit_of(design)
    own = design.block(0)
    assert cheapest_link(design, found, fit.covariance[own, own], link_contrast(fit.covariance[own, own]), 0) is None
