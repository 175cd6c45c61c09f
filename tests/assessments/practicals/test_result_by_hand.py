"""One exam worked through by hand, rule after rule. The arithmetic is the practical's own; the sums are written out.

Lesson 60 % (floor 60), oral 40 % (floor 50). Safety weighs 25, voice 75; levels 1 to 5, so a level counts (level - 1) / 4.
"""

from fractions import Fraction

import pytest

from assessments.practicals.result import Recommendation, result
from assessments.practicals.sheets import CriticalSighting, LeftOut
from tests.assessments.practicals.cast import practical, sheet

PARTS = {"lesson": {"weight": 60, "floor": 60}, "oral": {"weight": 40, "floor": 50}}
CRITERIA = {"safety": 25, "voice": 75}
GROUP = [{"id": "care", "title": "Care of the client", "criteria": ["safety"], "floor": 80}]
SPRING = (CriticalSighting("spring", 60, "changed while loaded"),)


def made(**more):
    cut = {"at": 70, "how": "set for a test", "standard_error": 2}
    return practical(PARTS, CRITERIA, highest=5, **{"cut": cut, "band": {"marks": 0}} | more)


def marked(of, examiner, lesson, oral, **more):
    """Levels as (safety, voice) of each part."""
    levels = {("lesson", "safety"): lesson[0], ("lesson", "voice"): lesson[1]}
    return sheet(of, examiner, levels | {("oral", "safety"): oral[0], ("oral", "voice"): oral[1]}, **more)


def state(found, code):
    return [step.state for step in found.steps if step.code == code]


def by_id(scores):
    return {one.id: one.per_cent for one in scores}


def test_the_whole_sum():
    one = made()
    found = result(one, (marked(one, "a", (5, 4), (4, 3)), marked(one, "b", (4, 4), (5, 4))))
    # lesson: safety (1 + .75) / 2 = .875, voice .75: .25 x .875 + .75 x .75 = .78125
    # oral: safety (.75 + 1) / 2 = .875, voice (.5 + .75) / 2 = .625: .21875 + .46875 = .6875
    # whole: .6 x .78125 + .4 x .6875 = .46875 + .275 = .74375
    assert by_id(found.scores.parts) == {"lesson": Fraction("78.125"), "oral": Fraction("68.75")}
    # safety over both parts .875; voice .6 x .75 + .4 x .625 = .7
    assert by_id(found.scores.criteria) == {"safety": Fraction("87.5"), "voice": 70}
    assert (found.scores.total, found.recommendation) == (Fraction("74.375"), Recommendation.PASS)
    # a alone: .6(.25 + .5625) + .4(.1875 + .375) = .4875 + .225 = 71.25; b: .6 x .75 + .4(.25 + .5625) = 77.5
    assert dict(found.scores.by_sheet) == {"a": Fraction("71.25"), "b": Fraction("77.5")}


@pytest.mark.parametrize("why", list(LeftOut))
def test_not_seen_not_reached_and_declined_alike_leave_the_weight_out(why):
    one = made()
    found = result(one, tuple(marked(one, who, (why, 4), (4, 3)) for who in "ab"))
    # safety of the lesson weighs .6 x .25 = 15 %. Left: (.45 x .75 + .1 x .75 + .3 x .5) / .85 = .5625 / .85
    assert (found.scores.left_out, found.scores.total) == (15, Fraction("56.25") / Fraction("0.85"))
    # the lesson's own average is that of voice alone
    assert by_id(found.scores.parts)["lesson"] == 75


def test_what_one_examiner_saw_counts_as_that_one_saw_it():
    one = made()
    found = result(one, (marked(one, "a", (LeftOut.NOT_SEEN, 4), (4, 4)), marked(one, "b", (3, 4), (4, 4))))
    assert (found.scores.left_out, by_id(found.scores.criteria)["safety"]) == (0, 60)
    # safety: .6 x .5 + .4 x .75 = .6


@pytest.mark.parametrize(("share", "expected"), [(15, Recommendation.PASS), (14, Recommendation.NOT_COMPLETED)])
def test_the_share_that_may_be_left_out_is_the_editions(share, expected):
    one = made(left_out=share)
    sheets = tuple(marked(one, who, (LeftOut.NOT_REACHED, 5), (5, 5)) for who in "ab")
    assert result(one, sheets).recommendation is expected


def test_a_group_of_criteria_has_its_own_floor_over_all_parts():
    one = made(groups=GROUP)
    # safety: .6 x .75 + .4 x 1 = .85 reaches 80; .6 x .75 + .4 x .75 = .75 does not, though 93.75 % passes the cut
    good = result(one, tuple(marked(one, who, (4, 5), (5, 5)) for who in "ab"))
    bad = result(one, tuple(marked(one, who, (4, 5), (4, 5)) for who in "ab"))
    assert (state(good, "group-floor"), good.recommendation) == (["met"], Recommendation.PASS)
    assert (bad.scores.total, bad.recommendation) == (Fraction("93.75"), Recommendation.FAIL)


def test_a_part_below_its_floor_alone_is_referred_by_name():
    one = made()
    found = result(one, tuple(marked(one, who, (5, 5), (3, 2)) for who in "ab"))
    # oral: .25 x .5 + .75 x .25 = 31.25, under 50; whole: 60 + 12.5 = 72.5, over the cut
    assert (found.scores.total, found.refer_parts) == (Fraction("72.5"), ("oral",))
    assert found.recommendation is Recommendation.REFER


def test_a_floor_of_which_nothing_was_seen_is_told_to_the_decider():
    """An exam may leave so much out; what it then says nothing of must not look as if it had been reached."""
    one = made(left_out=50)
    out = (LeftOut.DECLINED, LeftOut.DECLINED)
    found = result(one, tuple(marked(one, who, (5, 5), out) for who in "ab"))
    assert [(step.state, step.values["title"]) for step in found.steps if step.code == "floor-unseen"] == [
        ("note", "oral")
    ]


def test_a_critical_fault_is_confirmed_by_both_and_open_where_one_alone_saw_it():
    one = made()
    top = ((5, 5), (5, 5))
    both = result(one, tuple(marked(one, who, *top, critical=SPRING) for who in "ab"))
    alone = result(one, (marked(one, "a", *top, critical=SPRING), marked(one, "b", *top)))
    assert (both.scores.total, both.recommendation) == (100, Recommendation.FAIL)
    assert (alone.recommendation, alone.second_marking) == (
        Recommendation.SECOND_MARKING, ("critical-seen-by-one",),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("season", "close"),
    [
        (None, False),  # the rules' fixed 4 marks: 74.375 lies 4.375 above 70
        (Fraction(3), False),  # sqrt(9 + 4) = 3.61, under 4.375
        (Fraction(4), True),  # sqrt(16 + 4) = 4.47, over 4.375
    ],
)
def test_the_band_is_fixed_marks_or_the_seasons_error_with_the_cuts_in_quadrature(season, close):
    one = made(band={"marks": 4})
    sheets = (marked(one, "a", (5, 4), (4, 3)), marked(one, "b", (4, 4), (5, 4)))
    found = result(one, sheets, season)
    assert found.scores.total == Fraction("74.375")
    assert (found.second_marking == ("too-close",)) is close
    assert found.recommendation is (Recommendation.SECOND_MARKING if close else Recommendation.PASS)
