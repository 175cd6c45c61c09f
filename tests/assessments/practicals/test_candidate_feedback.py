"""What a candidate is told after an exam. Levels and averages are worked by hand; the exercise is the demo school's own."""

from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

from app.files.repertoire import edition_from_folder
from assessments.practicals.candidate_feedback import candidate_feedback, mendings, nearest_level, to_work_on
from assessments.practicals.result import result
from assessments.practicals.sheets import CriticalSighting, LeftOut, Noticed, Tap
from assessments.practicals.specification import Scale
from curriculum.repertoire.edition import Edition
from tests.assessments.practicals.cast import practical, sheet

SEED = Path(__file__).parents[3] / "seed_data" / "repertoire" / "classical-2026.1"
TWO = practical({"x": 60, "y": 40}, {"A": 50, "B": 50})


@cache
def edition() -> Edition:
    return edition_from_folder(SEED)


def told(*sheets, of=TWO):
    return candidate_feedback(of, result(of, sheets), sheets, edition())


def test_a_criterion_is_told_by_the_level_nearest_to_the_average_and_the_sentence_to_reach_for():
    """A: x (4 + 3) / 2 and y (2 + 2) / 2 in levels are shares 5/6 and 1/3, weighted 60 to 40: 19/30, nearest to level 3."""
    piet = sheet(TWO, "piet", {("x", "A"): 4, ("y", "A"): 2, ("x", "B"): 4, ("y", "B"): 4})
    runa = sheet(TWO, "runa", {("x", "A"): 3, ("y", "A"): 2, ("x", "B"): 4, ("y", "B"): 4})
    first, second = told(piet, runa).criteria
    assert (first.level, first.sentence, first.reach, first.weakest) == (3, "behaviour 3", "behaviour 4", ("y",))
    assert (second.level, second.reach, second.weakest) == (4, "", ())


def test_midway_the_level_that_counts_less_is_told_whichever_end_is_good():
    """1.5 on 1 to 4 is a sixth: midway between 1 and 2. On a reversed scale a sixth is midway between 4 and 3."""
    up, down = Scale(Fraction(1), Fraction(4)), Scale(Fraction(1), Fraction(4), best="lowest")
    assert nearest_level(up, Fraction(100, 6)) == 1
    assert nearest_level(down, Fraction(100, 6)) == 4


def test_what_nobody_scored_has_no_level():
    marks = {("x", "A"): LeftOut.NOT_SEEN, ("y", "A"): LeftOut.DECLINED, ("x", "B"): 2, ("y", "B"): 2}
    assert told(sheet(TWO, "piet", marks), sheet(TWO, "runa", marks)).criteria[0].level is None


def test_taps_of_all_are_put_together_and_nobody_is_named():
    marks = {(cell.block, cell.criterion): 3 for cell in TWO.cells()}
    piet = sheet(TWO, "piet", marks, taps=(Tap("table-roll-back", Noticed.FAULT_MISSED),))
    runa = sheet(
        TWO, "runa", marks, taps=(Tap("table-roll-back", Noticed.PROMPTED), Tap("mat-hundred", Noticed.FAULT_MENDED))
    )
    found = told(piet, runa)
    assert [(one.exercise, one.noticed) for one in found.to_work_on] == [
        ("table-roll-back", (Noticed.FAULT_MISSED, Noticed.PROMPTED))
    ]
    assert found.mended == ("mat-hundred",)
    assert "piet" not in repr(found)


def test_a_missed_fault_brings_the_weightiest_faults_first_each_with_its_drill():
    """From the edition's file: `drops` is the one of weight safety, its drill is `half-back`; three are told at most."""
    exercise = edition().exercise("table-roll-back")
    found = mendings(exercise)
    assert [one.fault.id for one in found] == ["drops", "hinges", "arms"]
    assert found[0].drill == "Half way, knees bent, feet flat against the poles."


def test_an_exercise_out_of_order_is_told_what_goes_before_it_and_an_unknown_one_is_only_named():
    second = edition().on("trapeze-table")[1]
    assert to_work_on(second.id, [Noticed.OUT_OF_ORDER], edition()).after == edition().on("trapeze-table")[0].id
    assert to_work_on("gone", [Noticed.FAULT_MISSED], edition()).mendings == ()


def test_a_critical_fault_is_told_only_when_it_is_confirmed():
    marks = {(cell.block, cell.criterion): 3 for cell in TWO.cells()}
    seen = CriticalSighting("spot", 60, "stood away")
    piet, runa = (sheet(TWO, name, marks, critical=(seen,)) for name in ("piet", "runa"))
    assert told(piet, runa).critical == ("spot",)
    assert told(piet, replace(runa, critical=())).critical == ()
