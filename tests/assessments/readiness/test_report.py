"""What blocks the certificate, who acts, and by when. Days are worked by hand by the critical path method
(Kelley and Walker, 1959: earliest by a forward pass, latest by a backward pass)."""

from dataclasses import replace
from datetime import date

import pytest

from assessments.readiness.evidence import DocumentEvidence, Evidence, ModuleEvidence, PracticalEvidence
from assessments.readiness.report import report
from tests.assessments.readiness.cast import (
    ALL,
    EARLY,
    FINAL,
    FIRST_AID,
    FULL,
    HOURS,
    INSURANCE,
    MODULE,
    ON,
    only,
    short,
)


def gaps(criteria, evidence, **more):
    return report(criteria, evidence, ON, **more).gaps


def only_gap(criterion, evidence, **more):
    (found,) = gaps(only(replace(criterion, after=(), part_after=())), evidence, **more)
    return found.code, found.who


def test_with_everything_there_the_trainee_is_ready():
    found = report(ALL, FULL, ON)
    assert (found.ready, found.gaps, found.day) == (True, (), ON)


def test_a_document_that_ends_before_the_certificate_day_blocks_it():
    found = report(ALL, FULL, ON, certificate_day=date(2026, 3, 2))
    assert (found.ready, [gap.code for gap in found.gaps]) == (False, ["document-renew"])


def test_without_a_day_a_document_must_last_until_the_earliest_that_can_be():
    undecided = replace(FULL, practicals=(PracticalEvidence("final", "deciding", date(2026, 2, 20)),))
    found = report(ALL, undecided, ON)
    # Deciding takes 7 days, the first aid certificate ends today and takes 35 to renew.
    assert [gap.criterion for gap in found.gaps] == ["first-aid", "final"]
    assert found.day == date(2026, 4, 5)


def test_gates_come_before_what_they_gate_and_the_longest_first():
    order = [gap.criterion for gap in gaps(ALL, short(4_200))]
    # 4,200 min at 420 a week is 70 days, gated in part by the insurance; anatomy takes 84, the final 42 more.
    assert order == ["anatomy", "insurance", "hours", "first-aid", "final"]


def test_what_waits_for_a_gate_cannot_start_today():
    found = {gap.criterion: gap for gap in gaps(ALL, short(4_200))}
    assert (found["final"].can_start_today, found["final"].waits_for) == (False, ("hours", "anatomy"))
    assert found["hours"].can_start_today


def test_a_gate_that_still_holds_today_holds_nothing_up():
    ending = DocumentEvidence("insurance", True, None, date(2026, 4, 1))
    order = [gap.criterion for gap in gaps(ALL, replace(short(4_200), documents=(ending,)))]
    assert order == ["anatomy", "hours", "first-aid", "insurance", "final"]


def test_earliest_and_latest_days_are_those_of_the_critical_path():
    found = {gap.criterion: gap for gap in gaps(ALL, short(4_200, window_end=date(2026, 7, 31)))}
    # Forward: anatomy 1 Mar + 84 = 24 May; final + 42 = 5 Jul. Backward from 31 Jul: 42 = 19 Jun, 84 = 27 Mar.
    assert (found["anatomy"].earliest, found["final"].earliest) == (date(2026, 5, 24), date(2026, 7, 5))
    assert (found["final"].latest_start, found["anatomy"].latest_start) == (date(2026, 6, 19), date(2026, 3, 27))
    assert found["hours"].latest_start == date(2026, 4, 10)


def test_when_the_window_is_too_short_it_says_so():
    found = report(ALL, short(4_200, window_end=date(2026, 6, 30)), ON)
    assert found.feasible is False
    assert [gap.criterion for gap in found.gaps if gap.late] == ["anatomy"]


def test_without_a_window_there_is_no_latest_day():
    found = report(ALL, short(4_200, window_end=None), ON)
    assert (found.deadline, found.feasible, {gap.latest_start for gap in found.gaps}) == (None, None, {None})


def test_the_hosts_sign_what_waits_and_the_trainee_does_the_rest():
    found = gaps(only(replace(HOURS, part_after=())), short(1_000, waiting=160))
    assert [(gap.who, gap.code, gap.days) for gap in found] == [("host", "hours-sign", 7), ("trainee", "hours-do", 14)]


def test_when_all_waits_for_signature_nothing_is_left_for_the_trainee():
    assert only_gap(HOURS, short(100, waiting=100)) == ("hours-sign", "host")


def test_all_hours_done_too_soon_wait_for_the_least_time_and_hold_up_no_practical():
    asked = only(replace(HOURS, part_after=()), replace(FINAL, after=("hours",)))
    (early,) = [line for line in report(asked, EARLY, ON).lines if not line.met]
    (gap,) = gaps(asked, EARLY)
    assert (early.code, gap.code, gap.days, gap.earliest) == ("hours-early", "hours-wait", 92, date(2026, 6, 1))
    assert all(gap.can_start_today for gap in gaps(asked, replace(EARLY, practicals=())))


def test_the_trainees_own_pace_is_used_where_it_is_known():
    (found,) = gaps(only(replace(HOURS, part_after=())), short(700, pace=100))
    assert found.days == 49


@pytest.mark.parametrize(
    ("state", "expected"),
    [
        ("booked", ("practical-take", "trainee")),
        ("marking", ("practical-mark", "examiner")),
        ("deciding", ("practical-decide", "school")),
        ("referred", ("practical-again", "trainee")),
        ("failed", ("practical-again", "trainee")),
    ],
)
def test_a_practical_waits_on_whoever_acts_next(state, expected):
    assert only_gap(FINAL, Evidence(practicals=(PracticalEvidence("final", state),))) == expected


def test_a_practical_without_attempts_left_is_for_the_school():
    used = PracticalEvidence("final", "failed", attempts_left=0)
    assert only_gap(FINAL, Evidence(practicals=(used,))) == ("practical-no-attempt", "school")


@pytest.mark.parametrize(
    ("documents", "expected"),
    [
        ((), ("document-hand-in", "trainee")),
        ((DocumentEvidence("insurance", False),), ("document-check", "school")),
        ((DocumentEvidence("insurance", True, None, date(2026, 2, 28)),), ("document-renew", "trainee")),
    ],
)
def test_a_document_is_handed_in_checked_and_renewed(documents, expected):
    assert only_gap(INSURANCE, Evidence(documents=documents)) == expected


@pytest.mark.parametrize(
    ("state", "expected"),
    [("booked", ("module-take", "trainee")), ("attended", ("module-register", "school"))],
)
def test_a_module_is_taken_and_registered(state, expected):
    assert only_gap(MODULE, Evidence(modules=(ModuleEvidence("anatomy", state, ON),))) == expected


def test_an_old_and_a_new_document_count_together():
    both = (DocumentEvidence("first-aid", True, None, date(2026, 2, 1)), DocumentEvidence("first-aid", True))
    assert report(only(FIRST_AID), Evidence(documents=both), ON).ready


def test_nothing_known_is_not_ready_and_every_criterion_has_its_gap():
    found = report(ALL, Evidence(), ON)
    assert {gap.criterion for gap in found.gaps} == {one.id for one in ALL.criteria}
    assert found.waiting_on == {"trainee": 4, "school": 1}
