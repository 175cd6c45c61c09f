"""A sheet can't be sent with an unexplained gap; a sent sheet never changes."""

from dataclasses import replace
from fractions import Fraction

import pytest

from assessments.practicals.sheet_checks import check_sheet, send
from assessments.practicals.sheets import (
    CriticalSighting,
    Grade,
    LeftOut,
    Manner,
    Mark,
    Noticed,
    SheetState,
    SteppedIn,
    Tap,
    correct,
    leave_out_block,
    make_void,
    put_mark,
)
from curriculum.faults import RefusedError
from tests.assessments.practicals.cast import level_sheet, practical

MADE = practical({"x": 60, "y": 40}, {"a": 50, "b": 50})
FULL = replace(level_sheet(MADE, "a", 3), state=SheetState.ON_DEVICE)


def codes(**changed):
    return [fault.code for fault in check_sheet(MADE, replace(FULL, **changed))]


def test_a_full_sheet_can_be_sent():
    assert send(MADE, FULL).state is SheetState.SENT


def test_every_gap_is_named_with_its_place():
    faults = check_sheet(MADE, replace(FULL, marks=FULL.marks[1:3]))
    assert [fault.field for fault in faults] == ["marks.x.a", "marks.y.b"]


def test_declined_needs_its_reason_and_not_seen_does_not():
    assert check_sheet(MADE, leave_out_block(FULL, MADE, "y", LeftOut.NOT_SEEN)) == ()
    declined = leave_out_block(FULL, MADE, "y", LeftOut.DECLINED)
    assert [fault.code for fault in check_sheet(MADE, declined)] == [
        "no-reason",
        "no-reason",
    ]


def test_not_done_and_after_a_prompt_are_scored_by_level():
    marked = put_mark(FULL, Mark("x", "a", Fraction(1), manner=Manner.NOT_DONE))
    assert (
        check_sheet(
            MADE,
            put_mark(marked, Mark("x", "b", Fraction(2), manner=Manner.AFTER_PROMPT)),
        )
        == ()
    )
    assert [fault.code for fault in check_sheet(MADE, put_mark(FULL, Mark("x", "a", manner=Manner.NOT_DONE)))] == [
        "level-or-reason"
    ]


def test_a_level_between_two_levels_is_refused():
    assert [fault.code for fault in check_sheet(MADE, put_mark(FULL, Mark("x", "a", Fraction(5, 2))))] == [
        "no-such-level"
    ]


def test_a_scored_block_needs_one_global_grade():
    assert codes(grades=()) == ["no-grade", "no-grade"]
    assert codes(grades=(Grade("x", 2), Grade("y", 5))) == ["no-such-grade"]


def test_a_critical_fault_is_known_and_has_time_and_reason():
    assert codes(critical=(CriticalSighting("spring", 10, ""),)) == ["no-reason"]
    assert codes(critical=(CriticalSighting("lateness", 10, "late"),)) == ["no-such-critical-fault"]


def test_stepping_in_has_a_reason():
    assert codes(stepped_in=(SteppedIn(12, " ", True),)) == ["no-reason"]


def test_a_swap_names_what_was_taught_instead():
    assert codes(taps=(Tap("hundred", Noticed.SWAPPED, 30),)) == ["no-swap"]


def test_a_sheet_of_another_edition_is_refused():
    assert codes(edition="0") == ["other-edition"]


def test_a_correction_is_a_new_version_with_a_reason():
    old, new = correct(send(MADE, FULL), "level tapped by mistake")
    assert (old.state, new.state, new.version) == (
        SheetState.REPLACED,
        SheetState.ON_DEVICE,
        2,
    )
    with pytest.raises(RefusedError):
        correct(send(MADE, FULL), "")


def test_a_sent_sheet_takes_no_more_marks():
    with pytest.raises(RefusedError):
        put_mark(send(MADE, FULL), Mark("x", "a", Fraction(4)))


def test_a_void_sheet_has_a_reason():
    assert make_void(FULL, "wrong candidate").state is SheetState.VOID
    with pytest.raises(RefusedError):
        make_void(FULL, " ")
