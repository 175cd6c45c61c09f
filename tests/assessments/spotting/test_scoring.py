"""Answers are sorted, and d′, c and the area come out as published.

Stanislaw H, Todorov N (1999) Behav Res Methods Instrum Comput 31:137-149: hit rate .8 and false-alarm rate .4 give
d′ 1.095 and c -0.294; the values are from memory. Hanley JA, McNeil BJ (1982) Radiology 143:29-36: 109 CT images rated on
five levels, area by trapezoids 0.893; the table is from memory.
"""

import pytest

from assessments.measurement.limits import Limit
from assessments.spotting.lesson import Moment, PlantedFault
from assessments.spotting.scoring import Answer, Counts, area, counted, curve, eye, pooled_sensitivity

NORMAL, ABNORMAL = (33, 6, 6, 11, 2), (3, 2, 2, 11, 33)
FAULTY = Moment("a", "c", "t", PlantedFault("w", "y", "safety", "s"))
SOUND = Moment("b", "c", "t", None, "fine")


def test_answers_are_sorted_by_what_their_moments_hold() -> None:
    said = [
        (FAULTY, Answer("a", True, True, "safety")),
        (FAULTY, Answer("a", True, False, "form")),
        (FAULTY, Answer("a", False, False)),
        (SOUND, Answer("b", True, True, "safety")),
        (SOUND, Answer("b", False, True)),
    ]
    assert counted(said) == Counts((0, 1, 1, 1), (1, 0, 0, 1), 2, 1)
    assert counted(said).row == (2, 3, 1, 2)


def test_the_area_is_the_published_one() -> None:
    assert area(ABNORMAL, NORMAL) == pytest.approx(0.893, abs=0.0005)


def test_the_curve_runs_from_corner_to_corner_and_never_back() -> None:
    points = curve((1, 1, 2, 3), (4, 2, 1, 0))
    assert (points[0], points[-1]) == ((0.0, 0.0), (1.0, 1.0))
    assert points == tuple(sorted(points))
    assert len(points) == 5


def test_no_area_without_both_kinds() -> None:
    assert area((0, 0, 0, 3), (0, 0, 0, 0)) is None


def test_the_published_rates_give_the_published_figures() -> None:
    """The counts are chosen so that the log-linear correction lands on the rates: (15.5 + .5) / (19 + 1), (7.5 + .5) / 20."""
    found = eye(Counts((3.5, 0, 0, 15.5), (11.5, 0, 0, 7.5)))
    assert found.d_prime.estimate == pytest.approx(1.095, abs=0.001)
    assert found.criterion.estimate == pytest.approx(-0.294, abs=0.001)


@pytest.mark.parametrize(
    ("counts", "held"), [(Counts((0, 0, 1, 4), (4, 1, 0, 0)), False), (Counts((0, 0, 0, 4), (4, 1, 0, 0)), True)]
)
def test_below_five_of_each_there_is_no_figure(counts: Counts, held: bool) -> None:
    assert (eye(counts).d_prime.estimate is None) == held
    assert eye(counts).few != held


def test_a_school_may_ask_for_more() -> None:
    strict = Limit({"signal_trials": 30, "noise_trials": 30})
    assert eye(Counts((0, 0, 0, 20), (20, 0, 0, 0)), strict).d_prime.estimate is None


def test_a_group_keeps_each_ones_leaning_apart() -> None:
    """Two people with the same d′ and opposite leanings: averaged rates would make the group's d′ too small."""
    bold, shy = Counts((1, 0, 0, 18), (6, 0, 0, 13)), Counts((13, 0, 0, 6), (18, 0, 0, 1))
    alone = eye(bold).d_prime.estimate
    assert eye(shy).d_prime.estimate == pytest.approx(alone)
    assert pooled_sensitivity([bold, shy]).estimate == pytest.approx(alone, abs=1e-6)
    assert eye(bold + shy).d_prime.estimate < alone - 0.2
    assert pooled_sensitivity([]).estimate is None
