"""The builder against every selection there is, on small cases."""

import itertools
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from curriculum.faults import RefusedError
from curriculum.sessions.plan_builder import FAMILY_WORTH, Wish, best_path, build_plan, candidates
from curriculum.sessions.plan_check import check_plan
from tests.curriculum.repertoire.cast import edition, exercise


def by_trying_all(lengths, between, worths, families, budget):
    """(value, −time) of the best rising selection, by trying every one."""
    best = (0, 0)
    for chosen in range(1, 1 << len(lengths)):
        places = [place for place in range(len(lengths)) if chosen >> place & 1]
        time = sum(lengths[p] for p in places) + sum(between[a][b] for a, b in itertools.pairwise(places))
        mask = 0
        for place in places:
            mask |= families[place]
        if time <= budget:
            best = max(best, (sum(worths[p] for p in places) + FAMILY_WORTH * mask.bit_count(), -time))
    return best


@st.composite
def cases(draw):
    size = draw(st.integers(1, 8))
    row = st.lists(st.integers(0, 40), min_size=size, max_size=size)
    numbers = [draw(st.lists(st.integers(*ends), min_size=size, max_size=size)) for ends in ((0, 60), (1, 9), (1, 15))]
    between = draw(st.lists(row, min_size=size, max_size=size))
    return numbers[0], between, numbers[1], numbers[2], draw(st.integers(0, 200))


@settings(max_examples=150, deadline=None)
@given(cases())
def test_no_selection_is_better_than_the_one_that_is_built(case):
    lengths, between, worths, families, budget = case
    found = best_path(lengths, between, worths, families, budget)
    assert (found.value, -found.time) == by_trying_all(lengths, between, worths, families, budget)
    walked = sum(lengths[p] for p in found.places) + sum(
        between[a][b] for a, b in zip(found.places, found.places[1:], strict=False)
    )
    assert walked == found.time <= budget
    assert list(found.places) == sorted(set(found.places))


SMALL = edition(
    exercise("a", families=["flexion"]),
    exercise("b", level="advanced"),
    exercise("c", families=["extension"], cautions=["pregnancy"]),
    exercise("d", seconds="2.5", cautions=[{"code": "pregnancy", "modify": "Less."}]),
)


def test_only_exercises_up_to_the_level_that_no_caution_withholds_are_considered():
    assert [one.id for one in candidates(SMALL, Wish(9, "basic", ("pregnancy",)))] == ["a", "d"]


def test_a_built_plan_keeps_its_minutes_and_its_order():
    wish = Wish(5, "basic", factor=Fraction(2), intake=30)
    found = check_plan(build_plan(SMALL, wish).plan, SMALL)
    assert found.seconds <= 300
    assert found.out_of_order == ()


def test_the_bound_is_reached():
    assert build_plan(SMALL, Wish(5, "advanced")).gap == 0


def test_where_nothing_fits_it_says_so():
    with pytest.raises(RefusedError):
        build_plan(SMALL, Wish(1, "basic", intake=59))
