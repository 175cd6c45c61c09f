"""Admission to an exam. That a candidate shows prerequisites, documents and identity first is common practice of exams."""

from assessments.practicals.admission import CHECKS, Admission, Missing, admission_faults, may_begin, missing

DONE = ("fees", "identity", "consent")


def test_what_is_missing_is_named_one_by_one_in_order():
    found = missing(CHECKS, Admission(("fees",)), ["Workshop"], ["Insurance"])
    assert found == (
        Missing("prerequisites", "Workshop"), Missing("documents", "Insurance"), Missing("identity"), Missing("consent"),
    )  # fmt: skip
    assert missing(("fees",), Admission(), ["Workshop"], ["Insurance"]) == (Missing("fees"),)
    assert missing(CHECKS, Admission(DONE), [], []) == ()


def test_nobody_is_admitted_while_something_is_missing_and_nothing_is_waived_without_a_reason():
    def codes(lacking, **more):
        return [one.code for one in admission_faults(Admission(DONE, **more), lacking)]

    gap = (Missing("fees"),)
    assert codes(gap, verdict="admitted") == ["missing"]
    assert codes(gap, verdict="waived", reason=" ") == ["no-reason"]
    assert codes((), verdict="waived", reason="Why not.") == ["nothing-missing"]
    assert codes(gap, verdict="passed") == ["no-verdict"]
    assert codes(gap, verdict="waived", reason="Seen by phone.") == codes((), verdict="admitted") == codes(gap) == []


def test_an_exam_begins_only_once_that_is_decided_or_nothing_is_asked():
    assert may_begin((), None)
    assert not may_begin(CHECKS, None)
    assert not may_begin(CHECKS, Admission(DONE))
    assert may_begin(CHECKS, Admission(verdict="waived"))
