"""Judges' rounds on a pass mark: what they come to, and how they meet what candidates did."""

import numpy as np
import pytest

from assessments.measurement.pass_curve import fail_curve
from assessments.season.compromise import BOUNDS, bound_faults, panel_compromise
from assessments.season.gathered import block_weights
from assessments.season.judging import answer_faults, judged_round, rounds_compared, rounds_stand
from curriculum.faults import RefusedError
from tests.assessments.season.cast import BASIC

BLOCKS = tuple(block_weights(BASIC))
FIRST = {
    judge: {block: 60 + 3 * place + 2 * at for at, block in enumerate(BLOCKS)} for place, judge in enumerate("abcde")
}
SECOND = {judge: {block: (mark + 66) / 2 for block, mark in marks.items()} for judge, marks in FIRST.items()}
TOTALS = np.linspace(40, 98, 120)
OWN = {"a": 64.0, "b": 70.0, "c": 66.0, "d": 61.0, "e": 69.0}
ACCEPTED = {judge: dict(zip(BOUNDS, (mark - 6, mark + 9, 20, 55, 62), strict=True)) for judge, mark in OWN.items()}


def test_the_pass_mark_is_the_mean_of_the_judges_marks_by_weight_and_its_error_their_spread():
    """Angoff (1971); Brennan & Lockwood (1980): s / √J for these blocks."""
    found = judged_round(BASIC, FIRST)
    weights = list(block_weights(BASIC).values())
    whole = [np.average(list(marks.values()), weights=weights) for marks in FIRST.values()]
    assert found.cut.estimate == pytest.approx(np.mean(whole))
    assert found.se == pytest.approx(np.std(whole, ddof=1) / np.sqrt(len(whole)))
    assert 0 <= found.cut.low < found.cut.estimate < found.cut.high <= 100


def test_below_five_judges_no_pass_mark_is_shown():
    few = {judge: FIRST[judge] for judge in "abcd"}
    assert judged_round(BASIC, few).cut.withheld.values == {"thing": "judges", "found": "4", "least": "5"}
    with pytest.raises(RefusedError):
        judged_round(BASIC, {})


def test_judges_of_both_rounds_are_compared_and_nobody_else():
    change = rounds_compared(BASIC, FIRST, {judge: SECOND[judge] for judge in "abc"})
    assert len(change.by_judge) == 3
    assert change.sd_after == pytest.approx(change.sd_before / 2)
    assert rounds_compared(BASIC, FIRST, {"a": SECOND["a"]}) is None


@pytest.mark.parametrize(
    ("answered", "steps", "wanted"),
    [
        ({}, set(), (1, True, False, 0)),
        ({1: {"a"}}, set(), (1, True, False, 0)),
        ({1: {"a", "b"}}, set(), (1, False, False, 1)),
        ({1: {"a"}}, {"close-1"}, (1, False, False, 1)),
        ({1: {"a", "b"}, 2: {"a"}}, {"second"}, (2, True, False, 1)),
        ({1: {"a", "b"}, 2: {"a", "b"}}, {"second"}, (2, False, False, 2)),
        ({1: {"a", "b"}}, {"decided"}, (1, False, True, 1)),
    ],
)
def test_answers_are_shown_only_of_a_round_that_is_over(answered, steps, wanted):
    found = rounds_stand({"a", "b"}, answered, steps)
    assert (found.round, found.is_open, found.decided, found.shown) == wanted


def test_every_block_needs_a_mark_in_range():
    marks = dict.fromkeys(BLOCKS, 70.0) | {BLOCKS[0]: None, BLOCKS[1]: 100.5, BLOCKS[2]: -0.1}
    assert [fault.field for fault in answer_faults(BASIC, marks)] == [f"mark.{block}" for block in BLOCKS[:3]]
    assert answer_faults(BASIC, dict.fromkeys(BLOCKS, 0.0)) == ()


def test_what_a_judge_could_accept_is_said_whole_and_in_order_or_not_at_all():
    whole = ACCEPTED["a"]
    assert bound_faults({}) == bound_faults(whole) == ()
    assert [fault.field for fault in bound_faults(whole | {"most": None})] == ["bound.most"]
    backwards = bound_faults(whole | {"highest": 10.0, "most": 5.0})
    assert [fault.field for fault in backwards] == ["bound.highest", "bound.most"]


def test_hofstee_lies_where_the_share_failing_meets_the_judges_diagonal():
    """De Gruijter (1985): the curve of those who fail crosses the line from (least cut, most failing) to its opposite."""
    cut = panel_compromise(OWN, ACCEPTED, TOTALS)["hofstee"].estimate
    lowest, highest, fewest, most = (np.mean([one[name] for one in ACCEPTED.values()]) for name in BOUNDS[:4])
    line = most + (cut - lowest) / (highest - lowest) * (fewest - most)
    assert lowest < cut < highest
    assert fail_curve(TOTALS).at(cut) == pytest.approx(line)


def test_beuk_weighs_the_judges_mark_against_the_share_they_expect_by_how_far_they_agree():
    """Beuk (1984): from the judges' means along a slope of their standard deviations to the curve of those who pass."""
    expected = {judge: one | {"passing": 50.0 + 4 * place} for place, (judge, one) in enumerate(ACCEPTED.items())}
    cut = panel_compromise(OWN, expected, TOTALS)["beuk"].estimate
    passing = [one["passing"] for one in expected.values()]
    slope = np.std(passing, ddof=1) / np.std(list(OWN.values()), ddof=1)
    wanted = np.mean(passing) + slope * (cut - np.mean(list(OWN.values())))
    assert 100 - fail_curve(TOTALS).at(cut) == pytest.approx(wanted)


def test_a_compromise_rests_on_fifty_candidates_and_five_judges_who_said_what_they_accept():
    assert panel_compromise(OWN, ACCEPTED, TOTALS[:49])["hofstee"].withheld.values["thing"] == "candidates"
    assert panel_compromise(OWN, {**ACCEPTED, "e": {}}, TOTALS)["beuk"].withheld.values["thing"] == "judges"
    assert panel_compromise(OWN, {}, TOTALS) == panel_compromise(OWN, ACCEPTED, []) == {}
