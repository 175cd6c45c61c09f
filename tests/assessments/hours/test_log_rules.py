"""Sessions that can't be logged: rules E1, E4, E5 and E6 of the trade (common practice)."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from assessments.hours.log_rules import KEPT_RULES, MOST_DAYS, Bounds, refusals
from assessments.hours.session import Part, Session, after, entries_of

DAY, MINUTES = date(2026, 3, 2), 24 * 60
BOUNDS = Bounds(today=date(2026, 3, 3), minute=600, enrolled=date(2026, 1, 5))
SESSION = Session("s", DAY, 540, 600, (Part(60, "observation", "reformer"),), host="h")


def codes(session: Session, bounds: Bounds = BOUNDS) -> list[str]:
    return [fault.code for fault in refusals(session, bounds)]


def test_a_plain_hour_with_a_host_is_taken() -> None:
    assert codes(SESSION) == []


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({"end": 540}, ["end-before-start"]),
        ({"breaks": 60}, ["all-break"]),
        ({"day": date(2026, 3, 4)}, ["future"]),
        ({"day": date(2026, 3, 3), "start": 570, "end": 630}, ["future"]),
        ({"day": date(2026, 1, 4)}, ["before-enrolment"]),
        ({"parts": ()}, ["no-part"]),
        ({"parts": (Part(40, "observation"), Part(30, "assisting"))}, ["parts-too-long"]),
        ({"parts": (Part(0, ""),)}, ["no-minutes", "no-activity"]),
        ({"host": ""}, ["no-host"]),
        ({"host": "", "proof": "attested"}, []),
    ],
)
def test_each_rule_refuses_what_it_names(change: dict, expected: list[str]) -> None:
    assert codes(replace(SESSION, **change)) == expected


def test_all_reasons_come_at_once() -> None:
    broken = replace(SESSION, day=date(2027, 1, 1), end=500, host="", parts=())
    assert codes(broken) == ["end-before-start", "future", "no-part", "no-host"]


@pytest.mark.parametrize(
    ("start", "end", "clash"), [(480, 540, False), (600, 660, False), (480, 541, True), (550, 560, True)]
)
def test_sessions_may_touch_but_not_overlap(start: int, end: int, clash: bool) -> None:
    other = replace(SESSION, id="other", start=start, end=end)
    assert (codes(SESSION, replace(BOUNDS, others=(other,))) == ["overlap"]) is clash


def test_a_corrected_or_withdrawn_session_does_not_overlap() -> None:
    withdrawn = replace(SESSION, id="other", state="withdrawn")
    assert codes(SESSION, replace(BOUNDS, others=(SESSION, withdrawn))) == []


def test_every_part_is_an_entry_with_its_sessions_fields() -> None:
    first, second = entries_of(
        replace(SESSION, parts=(Part(40, "observation", "mat"), Part(20, "assisting", client="A|B")))
    )
    assert (first.values("host"), first.values("apparatus"), first.id) == (("h",), ("mat",), "s/1")
    assert second.values("client") == ("A", "B")


def test_time_of_several_days_is_even_whole_minutes_of_each() -> None:
    """601 min over 16 to 20 November: 120 min a day and the odd minute on the last (by hand)."""
    days = {"first": date(2026, 11, 16), "day": date(2026, 11, 20), "start": 0, "end": 601, "proof": "registered"}
    entries = entries_of(replace(SESSION, **days, parts=(Part(601, "workshop"),)))
    assert [(one.date.day, one.minutes) for one in entries] == [(16, 120), (17, 120), (18, 120), (19, 120), (20, 121)]
    assert len({one.id for one in entries}) == 5
    assert all(one.id.rsplit("/", 1)[0] == "s" for one in entries)


def test_no_entry_is_made_of_a_day_without_a_minute() -> None:
    days = {"first": date(2026, 11, 16), "day": date(2026, 11, 20), "start": 0, "end": 2, "proof": "accepted"}
    entries = entries_of(replace(SESSION, **days, parts=(Part(2, "workshop"),)))
    assert [(one.date.day, one.minutes) for one in entries] == [(18, 1), (20, 1)]


def kept_codes(**change: object) -> list[str]:
    kept = replace(SESSION, **{"start": 0, "end": 60, "proof": "accepted"} | change)
    return [fault.code for fault in refusals(kept, BOUNDS, KEPT_RULES)]


def test_what_the_school_keeps_may_lie_before_enrolment_and_beside_timed_sessions() -> None:
    """It has no times of day; the last minute of a day that is not over is no matter either."""
    assert kept_codes(day=BOUNDS.enrolled - timedelta(days=9)) == []
    assert kept_codes(day=BOUNDS.today, end=MINUTES) == []
    beside = replace(BOUNDS, others=(replace(SESSION, id="other", start=0, end=60),))
    assert refusals(replace(SESSION, start=0, end=60, proof="accepted"), beside, KEPT_RULES) == ()


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({"day": BOUNDS.today + timedelta(days=1)}, ["future"]),
        ({"end": 0}, ["no-time"]),
        ({"end": MINUTES + 1}, ["too-long-for-days"]),
        ({"first": SESSION.day - timedelta(days=1), "end": 2 * MINUTES}, []),
        ({"first": SESSION.day + timedelta(days=1)}, ["ends-early"]),
        ({"first": SESSION.day - timedelta(days=MOST_DAYS - 1)}, []),
        ({"first": SESSION.day - timedelta(days=MOST_DAYS)}, ["too-many-days"]),
    ],
)
def test_why_the_school_cannot_take_hours(change: dict, expected: list[str]) -> None:
    assert kept_codes(**change) == expected


def test_only_a_waiting_session_can_be_signed() -> None:
    assert after("waiting", "sign") == "signed_off"
    assert after("signed_off", "sign") is None
    assert after("signed_off", "withdraw") is None
