"""A plan looked through; every expected figure is summed by hand from the small edition."""

import itertools
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.document import node_of
from curriculum.faults import RefusedError
from curriculum.sessions.plan import Plan, read_plan
from curriculum.sessions.plan_check import check_plan, family_runs, longest_rising
from tests.curriculum.repertoire.cast import edition, exercise

ABC = edition(
    exercise("a", set_up={"springs": 4}),
    exercise("b", set_up={"springs": 2}, level="advanced", spot="yes", families=["flexion"]),
    exercise("c", set_up={"springs": 4}, cautions=[{"code": "knee", "modify": "Less."}, "pregnancy"]),
)


def codes(plan: Plan) -> list[str]:
    return [one.code for one in check_plan(plan, ABC).warnings]


def test_seconds_are_factor_times_movement_and_transitions_with_intake_and_close():
    plan = Plan(("a", "b", "c"), factor=Fraction(5, 2), intake=300, close=120)
    found = check_plan(plan, ABC)
    assert (found.moving_seconds, found.transition_seconds) == (180, 20)
    assert found.seconds == Fraction(5, 2) * 200 + 420


def test_the_longest_part_in_order_is_kept_and_the_rest_named():
    found = check_plan(Plan(("c", "a", "b")), ABC)
    assert (found.order_kept, found.out_of_order) == (2, ("c",))


def test_a_repeated_exercise_breaks_the_order():
    assert check_plan(Plan(("a", "a", "b")), ABC).order_kept == 2


def test_families_are_counted_and_the_missing_stand_at_nought():
    found = check_plan(Plan(("a", "b", "c")), ABC).families
    assert (found["hinge"], found["flexion"], found["inversion"]) == (2, 1, 0)


def test_trips_beyond_those_of_the_edition_order_are_avoidable():
    assert "avoidable-spring" in codes(Plan(("a", "b", "c", "b")))
    assert "avoidable-spring" not in codes(Plan(("a", "b", "c")))


def test_level_jumps_spots_and_exercises_above_the_level_are_told():
    found = codes(Plan(("a", "b"), level="basic"))
    assert {"above-level", "level-jump", "spot"} <= set(found)


def test_cautions_of_the_client_come_with_the_frame():
    assert [one for one in codes(Plan(("c",), client=("pregnancy", "knee"))) if one != "families-missing"] == [
        "caution-withhold", "caution-modify", "frame",
    ]  # fmt: skip


def test_where_nothing_is_listed_it_says_so_and_to_ask():
    texts = [one.text() for one in check_plan(Plan(("a",), client=("knee",)), ABC).warnings]
    assert "Nothing on this school's list; ask. Guidance only." in texts


def test_too_long_a_plan_is_told():
    assert "too-long" in codes(Plan(("a", "b", "c"), minutes=3))
    assert "too-long" not in codes(Plan(("a", "b", "c"), minutes=4))


@given(st.lists(st.integers(0, 9), max_size=9))
def test_the_longest_rising_part_is_as_long_as_the_best_of_all_parts(numbers):
    parts = [[n for bit, n in enumerate(numbers) if mask >> bit & 1] for mask in range(1 << len(numbers))]
    best = max(len(part) for part in parts if all(a < b for a, b in itertools.pairwise(part)))
    kept = [numbers[index] for index in sorted(longest_rising(numbers))]
    assert len(kept) == best
    assert all(a < b for a, b in itertools.pairwise(kept))


@pytest.mark.parametrize(
    "document",
    [None, {}, {"exercises": []}, {"exercises": ["z"]}, {"exercises": [{"exercise": "a", "sets": 2}]},
     {"exercises": ["a"], "factor": "0.5"}, {"exercises": ["a"], "client": ["moon"]}, {"exercises": ["a"], "minutes": "x"},
     {"exercises": [["a"]], "foot_bar": "glued"}],
)  # fmt: skip
def test_a_faulty_plan_is_refused(document):
    with pytest.raises(RefusedError):
        read_plan(node_of(document), ABC)


def test_a_stretch_of_one_family_is_told_once():
    families = ("flexion", "flexion", "flexion", "flexion", "extension", "flexion")
    made = edition(*(exercise(id, families=[family]) for id, family in zip("abcdef", families, strict=True)))
    assert [(family, [one.id for one in run]) for family, run in family_runs(list(made.exercises))] == [
        ("flexion", list("abcd"))
    ]
