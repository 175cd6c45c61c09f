"""Springs: the line through readings, and the closest set on another machine.

Sums of parallel springs and F = F0 + k x are Hooke's law (any textbook of mechanics); least squares is held against
numpy's polynomial fit.
"""

from datetime import date
from itertools import chain, combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from curriculum.document import node_of
from curriculum.faults import RefusedError
from curriculum.sessions.reading_machines import read_machines
from curriculum.sessions.spring_match import match_springs, springs_meant, together
from curriculum.sessions.springs import Machine, Reading, Spring, least_squares

TODAY = date(2026, 11, 25)
TRAVEL = (0.1, 0.6)


def spring(label: str, pretension: float, stiffness: float, calibrated: date = TODAY, worn: bool = False) -> Spring:
    readings = tuple(Reading(x, pretension + stiffness * x) for x in TRAVEL)
    return Spring(label, readings, calibrated, worn)


FOUR = Machine("four", tuple(spring(label, 20, 200) for label in "abcd"))


def labels(target: Machine, number: int = 2) -> tuple[str, ...]:
    return match_springs(FOUR, springs_meant(FOUR, number), target, TRAVEL, TODAY).labels


def test_two_readings_give_stiffness_and_pretension():
    line = least_squares((Reading(0.1, 40), Reading(0.6, 140)))
    assert (line.pretension, line.stiffness) == (pytest.approx(20), pytest.approx(200))


@given(
    st.lists(st.tuples(st.integers(0, 50), st.integers(0, 300)), min_size=3, max_size=8, unique_by=lambda one: one[0])
)
def test_more_readings_give_the_least_squares_line(points):
    line = least_squares(tuple(Reading(x / 50, float(y)) for x, y in points))
    slope, start = np.polyfit([x / 50 for x, _ in points], [y for _, y in points], 1)
    assert (line.stiffness, line.pretension) == (pytest.approx(slope, abs=1e-6), pytest.approx(start, abs=1e-6))


def test_springs_side_by_side_add_up():
    line = together(FOUR.springs[:3])
    assert (line.pretension, line.stiffness) == (pytest.approx(60), pytest.approx(600))


def test_the_same_springs_match_without_a_difference():
    found = match_springs(FOUR, springs_meant(FOUR, 4), FOUR, TRAVEL, TODAY)
    assert (len(found.labels), found.worst_difference) == (4, pytest.approx(0))


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 60), st.integers(20, 400)), min_size=1, max_size=6))
def test_no_set_is_closer_than_the_one_found(springs):
    target = Machine("t", tuple(spring(str(n), p, k) for n, (p, k) in enumerate(springs)))
    found = match_springs(FOUR, FOUR.springs[:2], target, TRAVEL, TODAY)
    wanted = together(FOUR.springs[:2])
    grid = np.linspace(*TRAVEL, 41)
    every = chain.from_iterable(combinations(springs, n) for n in range(1, len(springs) + 1))
    worst = [max(abs(sum(p + k * x for p, k in one) - wanted.at(x)) / wanted.at(x) for x in grid) for one in every]
    assert found.worst_difference == pytest.approx(min(worst))


def test_nothing_within_15_per_cent_is_told():
    weak = Machine("weak", (spring("w", 1, 20),))
    assert not match_springs(FOUR, FOUR.springs, weak, TRAVEL, TODAY).close


def test_a_set_that_fixes_the_carriage_is_never_proposed():
    target = Machine("t", (spring("w", 40, 400), spring("v", 35, 380)), fixing=(frozenset("w"),))
    assert labels(target) == ("v",)


def test_worn_and_stale_springs_are_left_out_of_the_other_machine():
    old = date(2025, 11, 24)
    target = Machine("t", (spring("w", 40, 400, worn=True), spring("s", 40, 400, old), spring("v", 35, 380)))
    found = match_springs(FOUR, FOUR.springs[:2], target, TRAVEL, TODAY)
    assert (found.labels, [one.code for one in found.left_out]) == (("v",), ["worn", "stale"])


def test_a_calibration_lasts_its_days_and_not_one_more():
    target = Machine("t", (spring("s", 40, 400, date(2025, 11, 25)),), valid_days=365)
    assert labels(target) == ("s",)
    with pytest.raises(RefusedError):
        match_springs(FOUR, FOUR.springs[:2], target, TRAVEL, date(2026, 11, 26))


@pytest.mark.parametrize("bad", [spring("a", 20, 200, worn=True), spring("a", 20, 200, date(2024, 1, 1))])
def test_stale_and_worn_springs_of_the_known_machine_are_refused(bad):
    with pytest.raises(RefusedError):
        match_springs(Machine("m", (bad,)), (bad,), FOUR, TRAVEL, TODAY)


def test_a_count_on_unequal_springs_needs_a_setting():
    mixed = Machine("m", (spring("h", 30, 300), spring("l", 10, 80)))
    with pytest.raises(RefusedError):
        springs_meant(mixed, 1)
    with_setting = Machine("m", mixed.springs, settings=((1, ("l",)),))
    assert [one.label for one in springs_meant(with_setting, 1)] == ["l"]


@pytest.mark.parametrize(
    "spring",
    [{"label": "a"}, {"label": "a", "readings": [{"travel": 0.1, "newtons": 4}]},
     {"label": "a", "readings": [{"travel": 0.1, "newtons": 4}, {"travel": 0.1, "newtons": 5}]},
     {"label": "a", "readings": [{"travel": 0.1, "newtons": 40}, {"travel": 0.2, "newtons": 5}]},
     {"label": "a", "readings": "x"}, "x", None],
)  # fmt: skip
def test_readings_that_make_no_spring_are_refused(spring):
    with pytest.raises(RefusedError):
        read_machines(node_of({"machines": [{"name": "m", "calibrated": "2026-01-01", "springs": [spring]}]}))
