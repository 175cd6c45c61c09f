import numpy as np
import pytest
from scipy import stats

from assessments.measurement.angoff import angoff
from assessments.measurement.beuk import beuk
from assessments.measurement.borderline_group import borderline_group
from assessments.measurement.borderline_regression import borderline_regression, exam_cut
from assessments.measurement.contrasting_groups import contrasting_groups, fewest_errors, normal_crossing
from assessments.measurement.hofstee import hofstee

TEN_OF_EACH = np.repeat(np.arange(11.0), 10)


@pytest.fixture
def chance():
    return np.random.default_rng(6)


@pytest.fixture
def station():
    """Grades 1 to 5 and marks that rise by about 6 a grade; invented."""
    own = np.random.default_rng(12)
    grades = own.choice([1.0, 2, 3, 4, 5], 80, p=[0.1, 0.2, 0.35, 0.25, 0.1])
    return 5 + 6 * grades + own.normal(0, 3, 80), grades


def test_angoff_is_the_sum_of_the_judges_means_with_their_error():
    table = np.array([[0.6, 0.8, 0.5], [0.5, 0.7, 0.6], [0.7, 0.8, 0.7], [0.4, 0.6, 0.5]])
    found = angoff(table)
    assert found.cut.estimate == pytest.approx(table.mean(axis=0).sum())
    assert found.se == pytest.approx(stats.sem(table.sum(axis=1)))


def test_angoff_for_new_elements_adds_their_variance():
    # Brennan & Lockwood (1980): I^2 (s2_j/J + s2_ji/(IJ) + s2_i/I).
    table = np.array([[0.6, 0.8, 0.5], [0.5, 0.7, 0.6], [0.7, 0.8, 0.7], [0.4, 0.6, 0.5]])
    found = angoff(table)
    assert found.se_new_elements**2 == pytest.approx(found.se**2 + 9 * found.variances["element"] / 3)


def test_a_judge_at_odds_with_the_others_is_named():
    table = np.array([[0.2, 0.5, 0.8, 0.9]] * 5 + [[0.9, 0.8, 0.5, 0.2]]) + np.arange(6)[:, None] / 100
    assert angoff(table).at_odds.tolist() == [False] * 5 + [True]


def test_the_regression_is_that_of_a_general_library(station, chance):
    scores, grades = station
    line = stats.linregress(grades, scores)
    found = borderline_regression(scores, grades, 2, chance)
    assert (found.intercept, found.slope, found.r2) == pytest.approx((line.intercept, line.slope, line.rvalue**2))
    assert found.cut.estimate == pytest.approx(line.intercept + 2 * line.slope)


def test_the_regressions_two_errors_tell_the_same(station, chance):
    found = borderline_regression(*station, 2, chance)
    assert found.se_resampled == pytest.approx(found.se, rel=0.25)


def test_the_exams_cut_adds_the_exercises_cuts_and_feels_that_the_same_candidates_sat_them(station, chance):
    scores, grades = (np.column_stack([part, part]) for part in station)
    one = borderline_regression(*station, 2, chance)
    cut, error = exam_cut(scores, grades, 2, chance)
    assert cut.estimate == pytest.approx(2 * one.cut.estimate)
    # Wholly dependent exercises: errors add, not their squares.
    assert error == pytest.approx(2 * one.se_resampled, rel=0.1)


def test_one_grade_alone_gives_no_regression(chance):
    assert borderline_regression(np.arange(20.0), np.full(20, 3.0), 2, chance).cut.estimate is None


def test_the_borderline_group_uses_the_median_up_to_fifty_and_the_mean_above(chance):
    marks = np.arange(51.0) ** 2
    assert borderline_group(marks[:50], np.ones(50, bool), chance).cut.estimate == np.median(marks[:50])
    assert borderline_group(marks, np.ones(51, bool), chance).cut.estimate == marks.mean()


def test_the_logistic_cut_has_no_slope_left_to_climb(station, chance):
    # At the maximum of the likelihood both score equations are zero (McCullagh & Nelder 1989, ch. 4).
    scores, grades = station
    found = contrasting_groups(scores, grades >= 3)
    chances = 1 / (1 + np.exp(-(found.intercept + found.slope * scores)))
    rest = (grades >= 3) - chances
    assert rest.sum() == pytest.approx(0, abs=1e-8)
    assert rest @ scores == pytest.approx(0, abs=1e-6)
    assert found.intercept + found.slope * found.cut.estimate == pytest.approx(0, abs=1e-9)


def test_the_crossing_of_the_normal_curves_is_where_they_are_equally_high(station):
    scores, grades = station
    able = grades >= 3
    cut = normal_crossing(scores, able)
    heights = [stats.norm.pdf(cut, group.mean(), group.std(ddof=1)) for group in (scores[able], scores[~able])]
    assert heights[0] == pytest.approx(heights[1])


def test_fewest_errors_tries_every_score(station):
    scores, grades = station
    able = grades >= 3
    tried = {cut: int(((scores >= cut) != able).sum()) for cut in scores}
    low, _, errors = fewest_errors(scores, able)
    assert errors == min(tried.values()) == tried[low]


def test_groups_that_do_not_overlap_give_the_middle_of_the_gap_flagged():
    found = contrasting_groups(np.array([1.0, 2, 3, 7, 8, 9]), np.array([0, 0, 0, 1, 1, 1], bool))
    assert found.cut.estimate == 5
    assert found.cut.flags[0].code == "separated"


def test_groups_in_the_wrong_order_give_no_cut():
    found = contrasting_groups(np.array([1.0, 2, 5, 4, 3, 6]), np.array([1, 1, 0, 1, 0, 0], bool))
    assert found.cut.estimate is None


def test_hofstee_meets_the_curve_within_the_box(chance):
    # By hand: F(c) = 100 c / 11; line from (3, 50) to (6, 20): 50 - 10 (c - 3); c = 80 / (100/11 + 10).
    found = hofstee(TEN_OF_EACH, np.array([[3.0, 6, 20, 50]] * 5), chance)
    assert found.cut.estimate == pytest.approx(80 / (100 / 11 + 10))
    assert found.fail_percent == pytest.approx(100 / 11 * found.cut.estimate)


@pytest.mark.parametrize(
    ("judges", "code", "fallback"),
    [([6.0, 7, 5, 10], "curve-above", 6), ([1.0, 2, 60, 70], "curve-below", 2), ([7.0, 6, 5, 10], "empty-box", None)],
)
def test_hofstee_without_a_solution_says_so_and_names_the_nearer_corner(judges, code, fallback, chance):
    found = hofstee(TEN_OF_EACH, np.array([judges] * 5), chance)
    assert found.cut.estimate is None
    assert found.cut.withheld.code == code
    assert found.fallback == fallback


def test_beuk_meets_the_curve_of_those_who_pass(chance):
    # By hand: pass 100 - 100 c / 11; judges' mean (5, 60), slope 10 / 1; 60 + 10 (c - 5) = 100 - 100 c / 11.
    found = beuk(TEN_OF_EACH, np.array([[4.0, 50], [5, 60], [6, 70]]), chance)
    assert found.slope == pytest.approx(10)
    assert found.cut.estimate == pytest.approx(90 / (10 + 100 / 11))


def test_beuk_keeps_the_cut_that_all_judges_ask_for(chance):
    found = beuk(TEN_OF_EACH, np.array([[5.0, 50], [5, 70]]), chance)
    assert found.cut.estimate == 5
    assert found.cut.flags[0].code == "one-cut"
