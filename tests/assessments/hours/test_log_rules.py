"""Sessions that can't be logged: rules E1, E4, E5 and E6 of the trade (common practice)."""

from dataclasses import replace
from datetime import date

import pytest

from assessments.hours.log_rules import Bounds, refusals
from assessments.hours.session import Part, Session, after, entries_of

DAY = date(2026, 3, 2)
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


def test_only_a_waiting_session_can_be_signed() -> None:
    assert after("waiting", "sign") == "signed_off"
    assert after("signed_off", "sign") is None
    assert after("signed_off", "withdraw") is None
