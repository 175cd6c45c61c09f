"""A sheet is kept as JSON (RFC 8259) and comes back as it was; the sheet is invented."""

import json
from fractions import Fraction

import pytest

from app.files.sheets import read_sheet, write_sheet
from assessments.practicals.sheets import (
    CriticalSighting,
    Grade,
    LeftOut,
    Manner,
    Mark,
    Noticed,
    Sheet,
    SheetState,
    SteppedIn,
    Tap,
)
from curriculum.faults import RefusedError

FULL = Sheet(
    "exam-1",
    "examiner-1",
    "practical",
    "2026",
    version=2,
    state=SheetState.SENT,
    marks=(
        Mark("first", "cueing", level=Fraction(7, 2), manner=Manner.AFTER_PROMPT),
        Mark("first", "safety", left_out=LeftOut.DECLINED, reason="a sore wrist"),
    ),
    taps=(Tap("the hundred", Noticed.SWAPPED, 65, "first", "roll up"),),
    critical=(CriticalSighting("unsafe", 70, "left the spring unhooked"),),
    stepped_in=(SteppedIn(71, "held the bar", went_on=True),),
    grades=(Grade("first", 1),),
    note="calm, précis",
    after_talking="changed",
    reason="we talked",
)


@pytest.mark.parametrize("sheet", [FULL, Sheet("exam-1", "examiner-1", "practical", "2026")])
def test_a_sheet_comes_back_as_it_was(sheet):
    assert read_sheet(write_sheet(sheet)) == sheet


def test_a_level_is_kept_exactly():
    assert json.loads(write_sheet(FULL))["marks"][0]["level"] == "7/2"


@pytest.mark.parametrize(
    "text",
    ["", "[]", "{}", write_sheet(FULL).replace('"7/2"', '"1/0"'), write_sheet(FULL).replace('"sent"', '"posted"')],
)
def test_what_is_no_sheet_is_refused(text):
    with pytest.raises(RefusedError) as refusal:
        read_sheet(text)
    assert refusal.value.faults[0].code == "not-a-sheet"
