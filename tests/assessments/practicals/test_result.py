"""How an outcome comes about: band, critical faults, gaps, what is left out. Worked by hand; the rules are ours."""

from dataclasses import replace
from fractions import Fraction

import pytest

from assessments.practicals.result import Recommendation, result
from assessments.practicals.sheets import (
    CriticalSighting,
    LeftOut,
    SheetState,
    SteppedIn,
)
from tests.assessments.practicals.cast import level_sheet, practical, sheet

SPRING = (CriticalSighting("spring", 125, "changed while loaded"),)


FIXED = {"at": 75, "how": "fixed"}


def ten(cut=FIXED, **more):
    return practical({"one": 100}, {"c": 100}, lowest=0, highest=20, cut=cut, **more)


def pair(made, first, second, **more):
    return (
        level_sheet(made, "a", first, **more),
        level_sheet(made, "b", second, **more),
    )


def codes(found):
    return [step.code for step in found.steps]


def test_two_sheets_are_averaged():
    made = ten()
    assert result(made, pair(made, 16, 17)).scores.total == Fraction("82.5")


def test_weights_multiply_over_parts_and_criteria():
    made = practical({"x": 60, "y": 40}, {"a": 25, "b": 75}, lowest=0, highest=4)
    marks = {("x", "a"): 4, ("x", "b"): 2, ("y", "a"): 1, ("y", "b"): 3}
    # By hand: .6(.25x1 + .75x.5) + .4(.25x.25 + .75x.75) = .375 + .25 = 62.5 %.
    assert result(made, (sheet(made, "a", marks), sheet(made, "b", marks))).scores.total == Fraction("62.5")


def test_what_is_not_seen_leaves_numerator_and_denominator():
    made = practical({"x": 90, "y": 10}, {"a": 100}, lowest=0, highest=4)
    marks = {("x", "a"): 3, ("y", "a"): LeftOut.NOT_SEEN}
    found = result(made, (sheet(made, "a", marks), sheet(made, "b", marks)))
    assert (found.scores.total, found.scores.left_out, found.recommendation) == (
        75,
        10,
        Recommendation.PASS,
    )


@pytest.mark.parametrize(
    ("weight", "expected"),
    [(20, Recommendation.PASS), (21, Recommendation.NOT_COMPLETED)],
)
def test_more_than_a_fifth_left_out_is_not_completed(weight, expected):
    made = practical({"x": 100 - weight, "y": weight}, {"a": 100}, lowest=0, highest=4)
    marks = {("x", "a"): 4, ("y", "a"): LeftOut.NOT_REACHED}
    assert result(made, (sheet(made, "a", marks), sheet(made, "b", marks))).recommendation is expected


def test_a_critical_fault_on_both_sheets_fails():
    made = ten()
    assert result(made, pair(made, 20, 20, critical=SPRING)).recommendation is Recommendation.FAIL


def test_a_critical_fault_seen_by_one_asks_for_a_second_marking():
    made = ten()
    first, second = pair(made, 20, 20)
    found = result(made, (replace(first, critical=SPRING), second))
    assert found.recommendation is Recommendation.SECOND_MARKING
    assert found.second_marking == ("critical-seen-by-one",)


@pytest.mark.parametrize(("third", "expected"), [(SPRING, Recommendation.FAIL), ((), Recommendation.PASS)])
def test_the_second_marking_confirms_a_critical_fault_or_not(third, expected):
    made = ten()
    first, second = pair(made, 20, 20)
    further = level_sheet(made, "c", 20, second_marking=True, critical=third)
    assert result(made, (replace(first, critical=SPRING), second, further)).recommendation is expected


def test_two_different_critical_faults_confirm_neither():
    made = ten()
    first, second = pair(made, 20, 20)
    other = (CriticalSighting("spot", 300, "stood behind"),)
    found = result(made, (replace(first, critical=SPRING), replace(second, critical=other)))
    assert found.recommendation is Recommendation.SECOND_MARKING


@pytest.mark.parametrize(
    ("level", "expected"),
    [
        (17, Recommendation.PASS),  # 85, more than 5 above 75
        (16, Recommendation.SECOND_MARKING),  # 80, on the band's edge
        (14, Recommendation.SECOND_MARKING),  # 70, on the edge below
        (13, Recommendation.FAIL),  # 65
    ],
)
def test_inside_the_band_is_too_close_to_call(level, expected):
    made = ten(band={"marks": 5})
    assert result(made, pair(made, level, level)).recommendation is expected


def test_the_seasons_error_and_the_cuts_error_add_in_quadrature():
    made = ten(
        band={"marks": 1},
        cut={"at": 75, "how": "angoff", "method": "angoff", "standard_error": 3},
    )
    # By hand: sqrt(4^2 + 3^2) = 5 exactly, so 80 is on the edge and 81.25 beyond it.
    assert result(made, pair(made, 16, 16), Fraction(4)).second_marking == ("too-close",)
    assert result(made, pair(made, 16, 16), Fraction("3.99")).recommendation is Recommendation.PASS


def test_after_a_second_marking_the_total_alone_is_held_against_the_cut():
    made = ten(band={"marks": 5})
    further = level_sheet(made, "c", 15, second_marking=True)
    found = result(made, (*pair(made, 15, 15), further))
    assert found.recommendation is Recommendation.PASS
    assert "total-inside-band" in codes(found)


def test_examiners_apart_talk_and_still_apart_ask_for_a_second_marking():
    made = ten(apart={"total": 10})
    assert result(made, pair(made, 20, 17)).recommendation is Recommendation.TALK
    talked = pair(made, 20, 17, after_talking="kept", reason="as seen")
    assert result(made, talked).second_marking == ("still-apart",)


def test_levels_apart_on_one_criterion_are_named():
    made = practical({"x": 100}, {"a": 50, "b": 50}, apart={"total": 100, "levels": 1})
    first = sheet(made, "a", {("x", "a"): 4, ("x", "b"): 4})
    second = sheet(made, "b", {("x", "a"): 2, ("x", "b"): 3})
    step = next(step for step in result(made, (first, second)).steps if step.code == "apart")
    assert step.values["places"] == (("x", "a"),)


def test_one_sheet_waits_for_the_other():
    made = ten()
    assert result(made, pair(made, 20, 20)[:1]).recommendation is Recommendation.WAITING


def test_only_the_newest_sent_version_counts():
    made = ten()
    first, second = pair(made, 20, 20)
    old = replace(first, state=SheetState.REPLACED)
    new = replace(level_sheet(made, "a", 10), version=2)
    void = replace(level_sheet(made, "d", 0), state=SheetState.VOID)
    assert result(made, (old, new, second, void)).scores.total == 75


def test_stepping_in_is_shown_with_whether_the_exam_went_on():
    made = ten()
    first, second = pair(made, 20, 20)
    noted = replace(
        first,
        stepped_in=(
            SteppedIn(610, "strap slipped", True),
            SteppedIn(700, "dizzy", False),
        ),
    )
    assert [code for code in codes(result(made, (noted, second))) if code.startswith("st")] == ["stepped-in", "stopped"]


def test_no_sheet_at_all_is_waiting_and_not_an_error():
    assert result(ten(), ()).recommendation is Recommendation.WAITING
