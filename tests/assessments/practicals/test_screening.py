"""A list screened against a client. The rule is worked by hand on a small edition; the demo's cautions are its own.

That an exercise which a client should not do is left out or replaced, and that this is no fault of the candidate, is common
practice of teaching examinations.
"""

from dataclasses import replace
from fractions import Fraction

import pytest

from assessments.practicals.client import ClientRule, Intake, clients_faults
from assessments.practicals.screening import Swap, screened, with_swaps
from curriculum.repertoire.bank import exam_bank
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Caution
from tests.assessments.practicals.test_candidate_feedback import edition

HOLD, CHANGE = Caution("disc", "withhold"), Caution("disc", "modify", "Half the way.")


def five(**changed: dict) -> Edition:
    """Five exercises of one apparatus, level and family, a minute each, `a` to `e`; what is named differs."""
    pattern = edition().on("mat")[0]
    made = [
        replace(pattern, id=id, name=id, place=place, families=("flexion",), cautions=(), **{})
        for place, id in enumerate("abcde", start=1)
    ]
    return replace(edition(), exercises=tuple(replace(one, **changed.get(one.id, {})) for one in made))


def bank_of(edition: Edition, **minutes_and_difficulty: tuple[float, float]) -> dict:
    found = {one.exercise: replace(one, difficulty=Fraction(0), minutes=Fraction(1)) for one in exam_bank(edition)}
    for id, (minutes, difficulty) in minutes_and_difficulty.items():
        found[id] = replace(found[id], minutes=Fraction(str(minutes)), difficulty=Fraction(str(difficulty)))
    return found


def swap(school: Edition, bank: dict, *listed: str) -> Swap:
    (one,) = screened({"x": listed or ("a",)}, ["disc"], school, bank).swaps
    return one


def test_nothing_is_swapped_where_the_list_says_nothing():
    found = screened({"x": ["a", "b"]}, ["disc"], five(), bank_of(five()))
    assert (found.swaps, found.to_modify) == ((), ())


def test_the_nearest_in_difficulty_is_taken_of_those_that_are_as_long():
    """b is nearest in difficulty but twice as long; c is 0.4 away, d 0.3, e 0.3 and later in the order."""
    school = five(a={"cautions": (HOLD,)})
    bank = bank_of(school, b=(2, 0), c=(1, 0.4), d=(1.5, -0.3), e=(0.5, 0.3))
    assert swap(school, bank) == Swap("x", "a", "d", ("disc",))


@pytest.mark.parametrize(
    ("changed", "instead", "gave_way"),
    [
        ({"b": {"cautions": (HOLD,)}}, "c", ()),
        ({"b": {"cautions": (CHANGE,)}}, "c", ()),
        ({one: {"families": ("rotation",)} for one in "bcde"}, "b", ("family",)),
        ({one: {"cautions": (HOLD,)} for one in "bcde"}, "", ()),
        ({one: {"level": "advanced"} for one in "bcd"}, "e", ()),
        ({one: {"apparatus": "chair"} for one in "bcd"}, "e", ()),
    ],
)  # fmt: skip
def test_what_is_withheld_too_is_never_taken_and_what_needs_no_change_comes_first(changed, instead, gave_way):
    school = five(a={"cautions": (HOLD,)}, **changed)
    assert (swap(school, bank_of(school)).instead, swap(school, bank_of(school)).gave_way) == (instead, gave_way)


def test_family_gives_way_before_length_and_both_at_last():
    school = five(
        a={"cautions": (HOLD,)}, b={"families": ("rotation",)}, **{one: {"cautions": (HOLD,)} for one in "cde"}
    )
    assert swap(school, bank_of(school, b=(1, 3))).gave_way == ("family",)
    assert swap(school, bank_of(school, b=(5, 0))).gave_way == ("family", "minutes")


def test_no_task_stands_twice_and_a_task_without_an_equal_one_stays_to_be_declined():
    school = five(a={"cautions": (HOLD,)}, b={"cautions": (HOLD,)}, c={"cautions": (CHANGE,)})
    tasks = {"x": ["a", "d"], "y": ["b", "e"]}
    found = screened(tasks, ["disc"], school, bank_of(school))
    assert [one.instead for one in found.swaps] == ["c", ""]
    assert with_swaps(tasks, found.swaps) == {"x": ["c", "d"], "y": ["b", "e"]}
    assert [(one.exercise, one.cautions) for one in found.to_modify] == [("c", (CHANGE,))]


def test_on_the_demos_own_lists_no_swap_is_withheld_or_stands_twice_and_the_same_comes_out_again():
    school, lists = edition(), {"x": [one.id for one in edition().on("chair")[:6]]}
    bank = {one.exercise: one for one in exam_bank(school)}
    codes = [one.code for one in school.cautions]
    for code in codes:
        found = screened(lists, [code], school, bank)
        after = with_swaps(lists, found.swaps)["x"]
        stays = {one.exercise for one in found.swaps if not one.instead}
        assert len(set(after)) == len(after)
        for id in set(after) - stays:
            assert all(one.code != code or one.action == "modify" for one in school.exercise(id).cautions)
        assert found == screened(lists, [code], school, bank)


def test_intake_is_codes_only_and_every_fault_is_said_at_once():
    rule = ClientRule("school", reserve=True)
    faults = clients_faults(
        Intake("Anna Berg", "candidate", cautions=("slipped disc",)), None, "reserve", rule, {"disc"}
    )
    assert [one.code for one in faults] == [
        "no-code", "brought-by", "teacher", "not-observed", "no-caution", "no-reserve", "who-is-here"
    ]  # fmt: skip
    fine = Intake("C-014", "school", True, ("disc",), True)
    assert clients_faults(fine, replace(fine, code="C-015"), "client", rule, {"disc"}) == ()
    assert [one.code for one in clients_faults(fine, fine, "", rule, {"disc"})] == ["same-client"]
