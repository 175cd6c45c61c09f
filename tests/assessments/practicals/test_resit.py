"""A further attempt at named parts, worked by hand.

Parts alone again, from a day, at most so often, and a passing mark capped at the pass mark are published rules of
health-profession practicals and of studio programmes (common practice); the sums are the practical's own arithmetic.
"""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from assessments.practicals.deciding import Decision, Outcome, decision_faults
from assessments.practicals.resit import Again, only_parts, still_counts
from assessments.practicals.result import Recommendation, result
from assessments.practicals.setting import Booking, Setting, an_attempt_is_left
from assessments.practicals.sheets import CriticalSighting
from tests.assessments.practicals.cast import practical, sheet

RULES = {"attempts": 3, "after_days": 14, "capped": True}
MADE = practical(
    {"lesson": 50, "oral": {"weight": 30, "floor": 50}, "mat": 20}, {"a": 40, "b": 60}, highest=5, resits=RULES,
)  # fmt: skip


def marked(examiner, exam="first", **levels):
    """A sent sheet; each part's levels of (a, b)."""
    marks = {(part, one): level for part, pair in levels.items() for one, level in zip("ab", pair, strict=True)}
    return replace(sheet(MADE, examiner, marks), exam=exam)


FIRST = tuple(marked(who, lesson=(5, 5), oral=(2, 2), mat=(5, 5)) for who in "ef")


def test_the_first_attempt_refers_the_oral():
    # .5 + .3 x .25 + .2 = 77.5, over the cut of 75; the oral has 25, under its floor of 50
    found = result(MADE, FIRST)
    assert (found.scores.total, found.recommendation, found.refer_parts) == (
        Fraction("77.5"), Recommendation.REFER, ("oral",),
    )  # fmt: skip


def test_parts_that_are_taken_again_weigh_a_hundred_among_themselves():
    alone = only_parts(MADE, ("oral", "mat"))
    assert [(part.id, part.weight) for part in alone.parts] == [("oral", 60), ("mat", 40)]
    assert sum(cell.weight for cell in alone.cells()) == 100


def test_a_resit_is_weighed_with_what_stood_and_capped():
    again = Again(("oral",), still_counts(MADE, ("oral",), [((), FIRST)]))
    found = result(MADE, (marked("g", oral=(5, 3)), marked("h", oral=(4, 4))), again=again)
    # oral: g .4 x 1 + .6 x .5 = .7, h .75, together .725; whole .5 + .3 x .725 + .2 = .9175
    assert {one.id: one.per_cent for one in found.scores.parts} == {"lesson": 100, "oral": Fraction("72.5"), "mat": 100}
    assert (found.scores.total, found.counts_as, found.recommendation) == (Fraction("91.75"), 75, Recommendation.PASS)
    # each new sheet stands for the oral alone, and the two are compared over it
    assert dict(found.scores.by_sheet) == {"g": 70, "h": 75}
    assert next(step.values["gap"] for step in found.steps if step.code == "together") == 5


def test_where_the_rules_do_not_cap_the_total_counts_as_it_is():
    made = replace(MADE, resits=replace(MADE.resits, capped=False))
    found = result(made, FIRST, again=Again())
    assert (found.counts_as, [one.code for one in found.steps if one.code == "capped"]) == (Fraction("77.5"), [])


def test_a_part_referred_twice_is_weighed_with_both_attempts_before():
    second = tuple(marked(who, "second", oral=(3, 3), mat=(1, 1)) for who in "gh")
    stood = still_counts(MADE, ("mat",), [(("oral", "mat"), second), ((), FIRST)])
    found = result(MADE, tuple(marked(who, "third", mat=(3, 3)) for who in "ij"), again=Again(("mat",), stood))
    # lesson of the first 100, oral of the second 50, mat of the third 50: .5 + .15 + .1 = 75
    assert {one.id: one.per_cent for one in found.scores.parts} == {"lesson": 100, "oral": 50, "mat": 50}
    assert (found.scores.total, found.recommendation) == (75, Recommendation.PASS)


def test_a_fault_of_the_first_attempt_does_not_fail_the_second():
    seen = (CriticalSighting("spring", 10, "loaded"),)
    stood = still_counts(MADE, ("oral",), [((), tuple(replace(one, critical=seen) for one in FIRST))])
    found = result(MADE, tuple(marked(who, oral=(5, 5)) for who in "gh"), again=Again(("oral",), stood))
    assert found.recommendation is Recommendation.PASS


DAY = date(2026, 6, 1)


@pytest.mark.parametrize(("wanted", "faults"), [(date(2026, 7, 1), []), (date(2026, 6, 30), ["before-from"])])
def test_the_day_that_the_decision_named_is_waited_for(wanted, faults):
    last = Booking("cara", "p", DAY, 600, 60, "", (), Outcome.REFER, date(2026, 7, 1))
    setting = Setting(MADE, Booking("cara", "p", wanted, 600, 60, "", ()), date(2026, 1, 1), frozenset(), (last,))
    assert [fault.code for fault in an_attempt_is_left(setting)] == faults


@pytest.mark.parametrize(
    ("change", "faults"),
    [
        ({"refer_tasks": (("oral", "swan"),), "again_from": DAY, "extra_minutes": 600, "extra_on": "spotting"}, []),
        ({"refer_tasks": (("mat", "swan"),)}, ["refer-tasks"]),
        ({"again_from": date(2026, 5, 31)}, ["again-from"]),
        ({"extra_minutes": 600}, ["extra-hours"]),
        ({"outcome": Outcome.VOID, "refer_parts": (), "void_cause": "illness", "extra_minutes": 60, "extra_on": "x"},
         ["extra-hours"]),
    ],
)  # fmt: skip
def test_what_follows_a_decision_fits_it(change, faults):
    base = Decision("first", "cara", "dan", Outcome.REFER, "the oral again", DAY, ("oral",))
    assert [one.code for one in decision_faults(MADE, result(MADE, FIRST), replace(base, **change), ())] == faults
