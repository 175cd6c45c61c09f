"""The score sheet's form loses nothing of a sheet that it only shows and takes back."""

from dataclasses import replace
from fractions import Fraction

import pytest

from app.web.sheet_form import STEPS_OFFERED, SheetForm
from assessments.practicals.sheets import Noticed, SteppedIn, Tap
from tests.assessments.practicals.cast import level_sheet, practical

EXERCISES = ("hundred", "roll-up")
TAPS = (
    Tap("hundred", Noticed.PROMPTED, 95, "mat"),
    Tap("hundred", Noticed.PROMPTED, 140, "mat"),
    Tap("roll-up", Noticed.SWAPPED, 200, "mat", "roll-down"),
    Tap("not-listed", Noticed.LEFT_OUT, 260),
)
STEPS = tuple(SteppedIn(60 * minute, f"reason {minute}", minute != 5) for minute in range(1, 6))


@pytest.fixture
def exam():  # noqa: ANN201
    return practical({"mat": 100}, {"A": 100})


@pytest.fixture
def kept(exam):  # noqa: ANN001, ANN201
    return replace(level_sheet(exam, "", Fraction(2)), taps=TAPS, stepped_in=STEPS)


def taken_back(exam, kept, **changed):  # noqa: ANN001, ANN003, ANN201
    form = SheetForm({**SheetForm.of(kept).fields, **changed})
    sheet, faults = form.sheet(exam, EXERCISES, kept)
    assert not faults
    return sheet


def test_times_blocks_repeats_and_unlisted_exercises_of_taps_stay(exam, kept) -> None:  # noqa: ANN001
    assert taken_back(exam, kept).taps == TAPS


def test_what_is_unticked_goes_and_what_is_new_has_no_time(exam, kept) -> None:  # noqa: ANN001
    found = taken_back(exam, kept, **{"noticed.hundred": ("fault-missed",), "instead.roll-up": ("teaser",)}).taps
    assert found == (Tap("hundred", Noticed.FAULT_MISSED), replace(TAPS[2], instead="teaser"), TAPS[3])


def test_every_time_of_stepping_in_stays_and_there_is_room_for_one_more(exam, kept) -> None:  # noqa: ANN001
    assert taken_back(exam, kept).stepped_in == STEPS
    assert SheetForm.of(kept).steps() == len(STEPS) + 1
    assert SheetForm({}).steps() == STEPS_OFFERED
