"""Who may decide: ISO/IEC 17024:2012, 5.2 and 9.4.1 (decided by people who did not examine or train), two years."""

from dataclasses import replace
from datetime import date

import pytest

from assessments.practicals.deciding import (
    Decision,
    Outcome,
    Tie,
    Waiver,
    decision_faults,
    sample_reasons,
    tie_faults,
)
from assessments.practicals.result import result
from assessments.practicals.sheets import CriticalSighting
from tests.assessments.practicals.cast import level_sheet, practical

ON = date(2026, 3, 1)
MADE = practical({"x": 60, "y": 40}, {"a": 100})
GOOD = result(MADE, (level_sheet(MADE, "e", 4), level_sheet(MADE, "f", 4)))
PASS = Decision("exam", "cara", "dan", Outcome.PASS, "clear of the cut", ON)


def codes(decision, found=GOOD, ties=()):
    return [fault.code for fault in decision_faults(MADE, found, decision, ties)]


def test_somebody_untied_may_decide():
    assert codes(PASS) == []


@pytest.mark.parametrize("kind", ["taught", "hosted", "examined", "related"])
def test_who_taught_hosted_or_examined_the_candidate_may_not(kind):
    assert codes(PASS, ties=(Tie("dan", "cara", kind),)) == [f"tied-{kind}"]


@pytest.mark.parametrize(("last", "tied"), [(date(2024, 3, 2), True), (date(2024, 3, 1), False)])
def test_a_tie_ends_24_months_after_its_last_day(last, tied):
    assert bool(tie_faults("dan", "cara", (Tie("dan", "cara", "taught", last),), ON, 24)) is tied


def test_the_end_of_february_counts_to_the_end_of_the_month():
    tie = (Tie("dan", "cara", "taught", date(2024, 2, 29)),)
    assert tie_faults("dan", "cara", tie, date(2026, 2, 27), 24)
    assert not tie_faults("dan", "cara", tie, date(2026, 2, 28), 24)


def test_a_tie_to_somebody_else_does_not_count():
    assert codes(PASS, ties=(Tie("dan", "zoe", "taught"), Tie("eve", "cara", "taught"))) == []


def test_a_waiver_with_a_reason_lifts_a_tie_and_one_without_does_not():
    tie = (Tie("dan", "cara", "taught"),)
    assert (
        codes(
            replace(PASS, waiver=Waiver("ada", "dan", "cara", "no other decider")),
            ties=tie,
        )
        == []
    )
    assert codes(replace(PASS, waiver=Waiver("ada", "dan", "cara", "")), ties=tie) == ["no-reason"]


def test_a_waiver_for_another_candidate_lifts_nothing():
    waived = replace(PASS, waiver=Waiver("ada", "dan", "zoe", "no other decider"))
    assert codes(waived, ties=(Tie("dan", "cara", "hosted"),)) == ["tied-hosted"]


def test_nobody_decides_on_their_own_exam_waiver_or_not():
    own = replace(PASS, decider="cara", waiver=Waiver("ada", "cara", "cara", "no other"))
    assert codes(own) == ["own-exam"]


def test_a_confirmed_critical_fault_is_never_decided_as_a_pass():
    seen = (CriticalSighting("spring", 5, "loaded"),)
    found = result(MADE, tuple(level_sheet(MADE, name, 4, critical=seen) for name in "ef"))
    assert codes(PASS, found) == ["critical-confirmed"]


def test_nothing_is_decided_before_a_second_marking_but_void_is():
    first = level_sheet(MADE, "e", 4, critical=(CriticalSighting("spring", 5, "loaded"),))
    found = result(MADE, (first, level_sheet(MADE, "f", 4)))
    assert codes(PASS, found) == ["still-open"]
    void = replace(PASS, outcome=Outcome.VOID, void_cause="broken-machine")
    assert (codes(void, found), void.uses_attempt) == ([], False)


def test_a_referral_names_its_parts():
    assert codes(replace(PASS, outcome=Outcome.REFER)) == ["refer-parts"]
    assert codes(replace(PASS, outcome=Outcome.REFER, refer_parts=("z",))) == ["no-such-part"]
    assert codes(replace(PASS, outcome=Outcome.REFER, refer_parts=("x",))) == []


def test_a_decision_has_a_reason_and_a_void_exam_a_cause():
    assert codes(replace(PASS, reason=" ")) == ["no-reason"]
    assert codes(replace(PASS, outcome=Outcome.VOID)) == ["void-cause"]


def test_the_second_marking_sample_takes_fails_first_exams_and_a_random_tenth():
    fail = result(MADE, (level_sheet(MADE, "e", 1), level_sheet(MADE, "f", 1)))
    assert sample_reasons(MADE.sample, fail, False, 0.5) == ("fail",)
    assert sample_reasons(MADE.sample, GOOD, True, 0.099) == ("new-examiner", "random")
    assert sample_reasons(MADE.sample, GOOD, False, 0.1) == ()
