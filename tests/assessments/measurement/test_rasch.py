"""The model against LSAT section 6 as printed (Bock & Lieberman 1970), and against itself on small designs."""

from dataclasses import replace

import numpy as np
import pytest

from assessments.measurement.rasch.analysis import start_from
from assessments.measurement.rasch.candidates import adjusted_scores, measures
from assessments.measurement.rasch.conditional import conditional_fit
from assessments.measurement.rasch.connectedness import connection
from assessments.measurement.rasch.design import rasch_design
from assessments.measurement.rasch.fit import expected, mean_squares
from assessments.measurement.rasch.interactions import false_discovery, refit, screen
from assessments.measurement.rasch.joint import joint_fit
from assessments.measurement.rasch.marginal import marginal_fit
from assessments.measurement.rasch.probabilities import moments
from assessments.measurement.rasch.separation import separation
from tests.assessments.measurement.published_designs import lsat6

STEPS = np.array([-1.0, 0.1, 0.9])


def simulated(people=60, harsh=0.0):
    """Every candidate before two of four examiners, on two exercises and three criteria; seed 5."""
    chance = np.random.default_rng(5)
    person, pair, exercise, criterion = (part.ravel() for part in np.meshgrid(*map(np.arange, (people, 2, 2, 3))))
    examiner = (person + pair * (1 + person % 3)) % 4
    severity = np.array([-0.6, -0.1, 0.2, 0.5])
    ease = chance.normal(0, 1.1, people)[person] - severity[examiner] - np.array([-0.4, 0, 0.4])[criterion]
    ease -= harsh * ((examiner == 3) & (criterion == 0))
    weight = np.exp(ease[:, None] * np.arange(4) - np.concatenate([[0], np.cumsum(STEPS)]))
    ratings = (chance.random(len(ease))[:, None] > np.cumsum(weight / weight.sum(axis=1)[:, None], axis=1)).sum(axis=1)
    return designed(person, {"examiner": examiner, "exercise": exercise, "criterion": criterion}, ratings), severity


def designed(person, facets, ratings, steps_of=None):
    def labels(code):
        return tuple(str(number) for number in range(code.max() + 1))

    columns = [(name, labels(code), code) for name, code in facets.items()]
    return rasch_design((labels(person), person), columns, np.asarray(ratings, float), steps_of)


def marginal(design):
    everyone = np.zeros(len(design.candidates), np.int64)
    return marginal_fit(design, everyone, start_from(design, everyone, joint_fit(design)))


def test_marginal_likelihood_gives_the_printed_lsat_results():
    """Rizopoulos (2006) J Stat Softw 17(5), LSAT: common slope 0.755, difficulties, log-likelihood -2466.938."""
    found = marginal(lsat6())
    difficulties = (found.full[:5] - found.means[0]) / found.sigma
    assert found.sigma == pytest.approx(0.755, abs=5e-4)
    assert difficulties == pytest.approx([-3.615, -1.322, -0.318, -1.730, -2.780], abs=6e-4)
    assert found.log_likelihood == pytest.approx(-2466.938, abs=6e-4)


def test_conditional_likelihood_is_that_of_elementary_symmetric_functions():
    """Andersen (1972) JRSS B 34:42-54: log-likelihood worked with the symmetric functions themselves."""
    design = lsat6()
    found = conditional_fit(design, joint_fit(design).full * 0.8)
    ease = np.exp(-found.full[:5])
    symmetric = np.poly(-ease)
    raw = design.raw()
    inside = (raw > 0) & (raw < 5)
    right = np.bincount(design.cell, design.category * inside[design.candidate])
    value = -right @ found.full[:5] - np.log(symmetric[raw[inside].astype(int)]).sum()
    assert found.log_likelihood == pytest.approx(value, abs=1e-6)
    expected_right = sum(
        np.array([ease[i] * np.poly(-np.delete(ease, i))[score - 1] / symmetric[score] for i in range(5)])
        for score in raw[inside].astype(int)
    )
    assert right == pytest.approx(expected_right, abs=1e-3)


def test_joint_estimates_reproduce_what_was_observed():
    """At the maximum the expected sums are the observed ones, for elements and candidates alike."""
    design, _ = simulated()
    fit = joint_fit(design)
    found = expected(design, fit.full, fit.ability)
    for place in range(3):
        codes = design.elements[design.cell[found.rows], place]
        assert np.bincount(codes, found.residual) == pytest.approx(0, abs=1e-4)
    assert np.bincount(design.candidate[found.rows], found.residual) == pytest.approx(0, abs=1e-4)


def test_three_estimators_tell_the_same_severities():
    design, severity = simulated(400)
    joint, wide = joint_fit(design), marginal(design)
    narrow = conditional_fit(design, joint.full)
    assert narrow.full[:4] == pytest.approx(wide.full[:4], abs=0.02)
    assert joint.full[:4] * joint.shrink == pytest.approx(narrow.full[:4], abs=0.03)
    errors = np.sqrt(np.diag(wide.covariance)[:4])
    assert (np.abs(wide.full[:4] - severity) < 4 * errors).all()


def test_errors_come_from_the_curvature_of_the_likelihood():
    """Louis's information against a second difference of the maximised likelihood along one parameter."""
    design, _ = simulated(30)
    everyone = np.zeros(30, np.int64)
    start = start_from(design, everyone, joint_fit(design))
    whole = marginal_fit(design, everyone, start)
    own, step = np.sqrt(whole.covariance[0, 0]), 0.05

    def at(value):
        return profile(design, everyone, start, value)

    curve = (2 * at(whole.full[0]) - at(whole.full[0] + step) - at(whole.full[0] - step)) / step**2
    assert 1 / np.sqrt(curve) == pytest.approx(own, rel=0.01)


def profile(design, group, start, value):
    """The greatest likelihood with examiner 0 held at `value`, by holding it in the known part of its cells."""
    size = len(design.facets[0].labels)
    held = np.zeros((design.contrast.shape[0], design.contrast.shape[1] - 1))
    held[:, size - 2 :] = design.contrast[:, size - 1 :]
    held[1 : size - 1, : size - 2] = np.eye(size - 2)
    held[size - 1, : size - 2] = -1
    known = np.where(design.elements[:, 0] == 0, value, 0) + np.where(design.elements[:, 0] == size - 1, -value, 0)
    return marginal_fit(replace(design, contrast=held, offset=known), group, start).log_likelihood


def test_a_group_of_weaker_candidates_has_a_mean_of_its_own():
    design, _ = simulated(300)
    group = (measures(design, joint_fit(design).full).estimate > 0).astype(np.int64)
    found = marginal_fit(design, group, start_from(design, group, joint_fit(design)))
    assert found.means[1] - found.means[0] > 1
    assert found.sigma < marginal(design).sigma


def test_warm_measures_solve_their_own_equation_and_stay_finite_at_the_ends():
    """Warm (1989) Psychometrika 54:427-450, equation 10: x - E + J / (2 I) = 0."""
    design = lsat6()
    full = conditional_fit(design, joint_fit(design).full * 0.8).full
    found = measures(design, full)
    ones, inverse = np.unique(design.raw(), return_index=True)
    assert np.isfinite(found.estimate).all()
    for score, person in zip(ones, inverse, strict=True):
        chance = 1 / (1 + np.exp(full[:5] - found.estimate[person]))
        info = chance * (1 - chance)
        balance = score - chance.sum() + (info * (1 - 2 * chance)).sum() / (2 * info.sum())
        assert balance == pytest.approx(0, abs=1e-8)
        assert found.at_limit[person] == (score in (0, 5))


def test_two_teams_with_common_criteria_are_two_islands():
    person = np.repeat(np.arange(8), 4)
    examiner = np.where(person < 4, np.tile([0, 0, 1, 1], 8), np.tile([2, 2, 3, 3], 8))
    criterion = np.tile([0, 1], 16)
    found = connection(designed(person, {"examiner": examiner, "criterion": criterion}, np.arange(32) % 3))
    assert found.extra_dimensions == 1
    assert found.islands == {"examiner": [["0", "1"], ["2", "3"]], "criterion": [["0", "1"]]}


def test_every_third_of_fifteen_exercises_falls_apart_in_three():
    person = np.repeat(np.arange(30), 10)
    exercise = 3 * np.tile(np.repeat(np.arange(5), 2), 30) + person % 3
    examiner = np.tile([0, 1], 150)
    found = connection(designed(person, {"examiner": examiner, "exercise": exercise}, np.arange(300) % 4))
    assert found.extra_dimensions == 2
    assert len(found.islands["exercise"]) == 3
    assert found.islands["examiner"] == [["0", "1"]]


def test_ratings_drawn_from_the_model_fit_it():
    design, _ = simulated(300)
    fit = marginal(design)
    found = expected(design, fit.full, measures(design, fit.full).estimate)
    shown = mean_squares(design.elements[design.cell, 0], 4, found)
    assert (np.abs(shown.infit - 0.95) < 0.12).all()
    assert (np.abs(shown.infit_t) < 4).all()


def test_moments_are_those_of_the_category():
    chances = np.array([[0.1, 0.2, 0.3, 0.4]])
    found = moments(chances)
    away = np.arange(4) - 2.0
    figures = [found.mean[0], found.variance[0], found.third[0], found.fourth[0]]
    assert figures == pytest.approx([2.0, *(chances[0] @ away**power for power in (2, 3, 4))])


def test_a_planted_interaction_stands_out_and_its_refit_is_larger_than_the_screen():
    design, _ = simulated(300, harsh=1.2)
    fit = marginal(design)
    examiner, criterion = design.elements[design.cell, 0], design.elements[design.cell, 2] - design.block(2).start
    seen = screen(design, fit.full, measures(design, fit.full).estimate, examiner, criterion, joint_fit(design))
    worst = int(np.argmax(np.abs(seen.t)))
    assert (seen.one[worst], seen.other[worst]) == (3, 0)
    assert seen.stands_out[worst]
    bias, error, _ = refit(design, ((examiner == 3) & (criterion == 0)).astype(int), ("pair",))
    assert bias[0] > seen.bias[worst]
    assert abs(bias[0] - 1.2) < 3 * error[0]


def test_false_discoveries_are_those_of_benjamini_and_hochberg():
    """Benjamini & Hochberg (1995) JRSS B 57:289-300, section 3.2: four of these fifteen at 5 per cent."""
    chances = [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344]
    chances += [0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0]
    assert (false_discovery(np.array(chances)) <= 0.05).sum() == 4


def test_separation_is_that_of_wright_and_masters():
    found = separation(np.array([-1.0, 0.0, 1.0]), np.array([0.5, 0.5, 0.5]))
    assert found.reliability == pytest.approx(0.75)
    assert found.index == pytest.approx(3**0.5)
    assert found.chi_square == pytest.approx(8)


def test_an_average_examiner_gives_what_the_model_expects_on_every_sheet():
    design, _ = simulated()
    fit = marginal(design)
    found = measures(design, fit.full)
    score, error = adjusted_scores(design, fit.full, found, judge=0)
    easier, _ = adjusted_scores(design, fit.full - np.r_[np.zeros(4), np.ones(5), np.zeros(3)], found, judge=0)
    assert ((score > 0) & (score < 3) & (error > 0)).all()
    assert (easier > score).all()


def test_a_category_that_nobody_used_is_left_out_and_named():
    person, item = np.repeat(np.arange(4), 2), np.tile([0, 1], 4)
    design = designed(person, {"item": item}, [0, 1, 1, 3, 3, 1, 0, 3])
    assert design.skipped == ("all: 2",)
    assert design.category.max() == 2
