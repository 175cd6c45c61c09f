"""Who may be set to examine whom, when and where; teaching bars examining for two years (common practice)."""

from dataclasses import replace
from datetime import date

import pytest

from assessments.practicals.deciding import Outcome, Tie, Waiver
from assessments.practicals.setting import Booking, Setting, setting_faults
from tests.assessments.practicals.cast import practical

DAY = date(2026, 6, 1)
MADE = practical({"x": 100}, {"a": 100}, resits={"attempts": 2, "after_days": 14, "within_days": 90})
WANTED = Booking("cara", "p", DAY, 600, 90, "North room", ("eve", "finn"))
STAFF = frozenset({"eve", "finn", "gil"})


def found(wanted=WANTED, **more):
    setting = Setting(MADE, wanted, date(2026, 1, 1), STAFF, **more)
    return [(fault.code, fault.field) for fault in setting_faults(setting)]


def test_an_exam_with_nothing_against_it_can_be_set():
    assert found() == []


@pytest.mark.parametrize(
    ("change", "faults"),
    [
        ({"examiners": ("eve", "eve")}, [("same-examiner", "examiner-1")]),
        ({"examiners": ("eve", "zoe")}, [("no-examiner", "examiner-1")]),
        ({"examiners": ("eve",)}, [("too-few", "examiner-1")]),
        ({"examiners": ("eve", "finn", "gil")}, [("too-many", "examiner-2")]),
        ({"day": date(2025, 12, 31)}, [("before-enrolment", "day")]),
        ({"starts": 1351}, [("past-midnight", "starts")]),
        ({"starts": 1350}, []),
    ],
)
def test_a_fault_is_named_at_its_field(change, faults):
    assert found(replace(WANTED, **change)) == faults


@pytest.mark.parametrize("kind", ["taught", "hosted", "related"])
def test_a_tied_examiner_needs_a_waiver_with_a_reason(kind):
    ties = (Tie("finn", "cara", kind),)
    waiver = Waiver("dan", "finn", "cara", "nobody else examines this apparatus")
    assert found(ties=ties) == [(f"tied-{kind}", "examiner-1")]
    assert found(ties=ties, waivers={"finn": waiver}) == []
    assert found(ties=ties, waivers={"finn": replace(waiver, reason=" ")}) == [("no-reason", "waiver-1")]


def test_having_examined_the_candidate_before_is_no_bar():
    assert found(ties=(Tie("finn", "cara", "examined"),)) == []


@pytest.mark.parametrize(
    ("other", "faults"),
    [
        (Booking("ida", "p", DAY, 660, 60, "north room", ("gil",)), [("room-taken", "room")]),
        (Booking("ida", "p", DAY, 689, 60, "Hall", ("finn",)), [("examiner-taken", "examiner-1")]),
        (Booking("ida", "p", DAY, 690, 60, "North room", ("finn",)), []),
        (Booking("ida", "p", DAY, 540, 60, "North room", ("finn",)), []),
        (Booking("cara", "q", DAY, 600, 60, "", ("gil",)), [("candidate-taken", "enrolment")]),
    ],
)
def test_nobody_is_in_two_exams_at_once(other, faults):
    assert found(others=(other,)) == faults


def earlier(outcome, day=date(2026, 5, 1)):
    return Booking("cara", "p", day, 600, 90, "", ("eve", "finn"), outcome)


@pytest.mark.parametrize(
    ("others", "faults"),
    [
        ((earlier(None),), [("undecided", "practical")]),
        ((earlier(Outcome.PASS),), [("passed", "practical")]),
        ((earlier(Outcome.VOID), earlier(Outcome.NOT_COMPLETED)), []),
        ((earlier(Outcome.FAIL),), []),
        ((earlier(Outcome.FAIL), earlier(Outcome.REFER)), [("no-attempt", "practical")]),
        ((earlier(Outcome.FAIL, date(2026, 5, 18)),), []),
        ((earlier(Outcome.FAIL, date(2026, 5, 19)),), [("too-soon", "day")]),
        ((earlier(Outcome.FAIL, date(2026, 3, 3)),), []),
        ((earlier(Outcome.FAIL, date(2026, 3, 2)),), [("too-late", "day")]),
    ],
)
def test_attempts_and_waiting_times_hold(others, faults):
    assert found(others=others) == faults
