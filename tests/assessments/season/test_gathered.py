"""What of a season counts, and what is left out."""

from dataclasses import replace

import numpy as np
import pytest

from assessments.practicals.scoring import score
from assessments.practicals.sheets import LeftOut as NoLevel
from assessments.season.gathered import effective_blocks, gather
from tests.assessments.season.cast import BASIC, season


def test_every_level_grade_and_block_of_a_whole_season_is_there():
    found = gather(BASIC, season(6))
    cells = len(BASIC.cells())
    assert (len(found.exams), found.sheets, len(found.rating)) == (6, 12, 12 * cells)
    assert (len(found.mark), len(found.grade), found.left_out) == (60, 60, {})


def test_totals_are_those_of_the_score_sheet():
    exams = season(6)
    found = gather(BASIC, exams)
    assert found.totals == pytest.approx([float(score(BASIC, one.sheets).total) for one in exams])


def test_a_block_without_a_level_leaves_its_weight_out_as_on_the_score_sheet():
    one, *others = season(6)
    first = one.sheets[0]
    mat = [replace(m, level=None, left_out=NoLevel.NOT_REACHED) if m.block == "mat" else m for m in first.marks]
    changed = replace(one, sheets=(replace(first, marks=tuple(mat)), one.sheets[1]))
    found = gather(BASIC, [changed, *others])
    assert found.left_out == {"no-level": 10}
    assert len(found.mark) == 59
    assert found.totals[0] == pytest.approx(float(score(BASIC, changed.sheets).total))


def test_void_exams_and_exams_that_wait_for_a_sheet_stay_out():
    first, second, *others = season(6)
    found = gather(BASIC, [replace(first, void=True), replace(second, sheets=second.sheets[:1]), *others])
    assert found.exams == ("past-3", "past-4", "past-5", "past-6")
    assert found.left_out == {"void": 1, "waiting": 1}


def test_only_what_an_examiner_scored_alone_counts():
    """A version after the talk, and a second marking, are no independent opinion."""
    one, *others = season(6)
    first, partner = one.sheets
    agreed = replace(first, marks=partner.marks, version=2, after_talking="changed", reason="We talked.")
    further = replace(partner, examiner="zoe", second_marking=True)
    found = gather(BASIC, [replace(one, sheets=(*one.sheets, agreed, further)), *others])
    assert found.left_out == {"second-marking": 1, "after-talking": 1}
    assert np.array_equal(found.rating, gather(BASIC, [one, *others]).rating)


def test_a_correction_made_alone_takes_the_place_of_the_first_version():
    one, *others = season(6)
    first, partner = one.sheets
    corrected = replace(first, marks=partner.marks, version=2, reason="A slip of the finger.")
    found = gather(BASIC, [replace(one, sheets=(first, partner, corrected)), *others])
    own = [found.rating[(found.rating[:, 0] == 0) & (found.rating[:, 1] == who), 2:] for who in (0, 1)]
    assert np.array_equal(own[0], own[1])


def test_a_season_without_sheets_is_empty_and_no_error():
    assert gather(BASIC, []).exams == ()


def test_unequal_blocks_average_out_less_than_as_many_equal_ones():
    """(sum w)^2 / sum w^2 over 21, 24.5, 24.5, 15 and 15 per cent, worked by hand."""
    assert effective_blocks(BASIC) == pytest.approx(100**2 / (21**2 + 2 * 24.5**2 + 2 * 15**2))
