"""How near an examiner comes to a reference, whether that gives a place, and until when."""

from datetime import date
from fractions import Fraction

import pytest

from app.files.calibration import performances_from_text, read_levels, write_levels
from app.files.practicals import practical_from_file
from app.settings import ROOT
from assessments.calibration.comparing import Distance, cells_of, compare, founded, misfits, together
from assessments.calibration.standing import Scored, State, again_from, standing
from assessments.practicals.specification import Calibration, Cell, Scale
from curriculum.faults import RefusedError

SEED = ROOT / "seed_data"
RULES = Calibration(performances=2)
# Peak flow by two meters, first readings, in l/min: Bland JM, Altman DG. Lancet 1986; i: 307-310, table 1. The paper
# gives the mean difference, large meter less mini meter, as -2.1 l/min.
LARGE = (494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427)
MINI = (512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451)


def beside(own: tuple, reference: tuple, scale: Scale, weights: tuple = ()) -> Distance:
    cells = [
        Cell("part", f"block-{place}", "A", scale, Fraction(weights[place] if weights else 1))
        for place in range(len(own))
    ]
    levels = [
        {(cell.block, "A"): Fraction(level) for cell, level in zip(cells, some, strict=True)}
        for some in (own, reference)
    ]
    return compare(cells, *levels)


def test_direction_is_the_mean_difference_of_a_published_comparison() -> None:
    found = beside(MINI, LARGE, Scale(Fraction(0), Fraction(1000)))
    assert round(float(found.by_criterion["A"]), 1) == -2.1
    assert round(float(found.stricter), 2) == -0.21


def test_distance_and_direction_by_hand() -> None:
    """Marks 2, 4, 3, 1 beside 3, 3, 3, 3 on 1 to 4: 1 + 1 + 0 + 2 levels of four marks; a lower mark is stricter."""
    found = beside((2, 4, 3, 1), (3, 3, 3, 3), Scale(Fraction(1), Fraction(4)), (10, 20, 30, 40))
    assert found.levels == 1
    assert found.same == 1
    # (10·1 − 20·1 + 0 + 40·2) / 3 levels / 100 of weight = 70/3 marks of 100.
    assert found.stricter == Fraction(70, 3)


def test_on_a_scale_whose_lowest_is_best_a_higher_mark_is_the_stricter_one() -> None:
    scale = Scale(Fraction(1), Fraction(5), Fraction(1, 2), "lowest")
    found = beside((3, 2), (2, 2), scale)
    assert found.by_criterion == {"A": 1}
    assert found.levels == 1
    assert found.stricter == Fraction(25, 2)


def test_a_founding_panel_sets_the_median_and_is_held_against_the_others() -> None:
    panel = [{("b", "A"): Fraction(level)} for level in (2, 3, 3, 4)]
    assert founded(panel) == {("b", "A"): 3}
    assert founded(panel[:2]) == {("b", "A"): Fraction(5, 2)}
    assert founded([]) == {}


def scored(performance: str, day: date, apart: int = 0) -> Scored:
    return Scored(performance, day, beside((3 - apart, 3), (3, 3), Scale(Fraction(1), Fraction(4))))


def test_a_calibration_holds_to_the_day_before_its_months_are_over() -> None:
    done = [scored("a", date(2026, 2, 28)), scored("b", date(2026, 5, 1))]
    assert standing(RULES, done, date(2026, 5, 1)).until == date(2027, 2, 27)
    assert standing(RULES, done, date(2027, 2, 27)).state is State.HOLDS
    assert standing(RULES, done, date(2027, 2, 28)).state is State.LAPSED
    assert standing(RULES, done[:1], date(2026, 5, 1)).state is State.TOO_FEW
    # What was scored after the day says nothing of the day.
    assert standing(RULES, done, date(2026, 4, 30)).state is State.TOO_FEW
    assert standing(Calibration(performances=0), [], date(2026, 5, 1)).gives_a_place


def test_too_far_from_the_reference_gives_no_place_and_the_newest_counts() -> None:
    """Two levels in one of four marks are 0.5 a mark, and 16.7 marks of 100 on the whole."""
    day = date(2026, 5, 1)
    far = [scored("a", day, apart=2), scored("b", day)]
    assert standing(RULES, far, day).state is State.OUTSIDE
    assert standing(Calibration(performances=2, total=Fraction(17)), far, day).state is State.HOLDS
    assert standing(RULES, [*far, scored("a", date(2026, 11, 2))], date(2026, 11, 2)).state is State.HOLDS
    assert again_from(RULES, day) == date(2026, 11, 1)
    assert again_from(Calibration(months=1), day) == date(2026, 6, 1)


def test_performances_count_together_mark_by_mark() -> None:
    one, other = scored("a", date(2026, 5, 1), 1).distance, scored("b", date(2026, 5, 1)).distance
    assert together([one, other]).levels == Fraction(1, 4)


@pytest.mark.parametrize("name", ["basic", "final"])
def test_the_described_performances_fit_their_practicals(name: str) -> None:
    practical = practical_from_file(SEED / "practicals" / f"{name}.yaml")
    made = performances_from_text((SEED / "calibration" / f"{name}.yaml").read_text(encoding="utf-8"), name)
    assert made.practical == practical.id
    for one in made.performances:
        assert list(misfits(practical, one)) == []
        assert len(cells_of(practical, one)) == len(one.places)
        levels = one.levels
        assert read_levels(write_levels(levels)) == levels
    assert len([one for one in made.performances if one.reference]) >= practical.calibration.performances


FAULTY = """
title: T
frame: F
practical: basic
performances:
  - id: one
    title: One
    setting: S
    reference: {how: H}
    blocks:
      - {block: b, moments: [M], marks: [{criterion: A, level: 3}, {criterion: A}]}
  - id: one
    title: Two
    setting: S
    blocks:
      - {block: b, moments: [M], marks: [{criterion: A, level: 3}]}
      - {block: b, moments: [M], marks: [{criterion: A, level: 3}]}
"""


def test_every_fault_of_a_file_is_named_with_its_line() -> None:
    with pytest.raises(RefusedError) as refused:
        performances_from_text(FAULTY, "p.yaml")
    found = {(fault.code, fault.line) for fault in refused.value.faults}
    assert found == {("twice", 11), ("twice", 12), ("twice", 17), ("no-level", 9), ("no-reference", 16)}


def test_a_performance_that_the_practical_can_not_judge_is_named() -> None:
    practical = practical_from_file(SEED / "practicals" / "basic.yaml")
    text = FAULTY.replace("level: 3}, {criterion: A}", "level: 9}").split("  - id: one\n    title: Two")[0]
    (one,) = performances_from_text(text, "p").performances
    assert [fault.code for fault in misfits(practical, one)] == ["no-such-mark"]
    (one,) = performances_from_text(text.replace("block: b", "block: mat"), "p").performances
    assert [fault.code for fault in misfits(practical, one)] == ["no-such-level"]
