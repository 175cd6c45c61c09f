"""A session made shorter by its host never has more time than it had, in any part of it."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as some

from assessments.hours.session import Part, Session
from assessments.hours.shortening import Shorter, shortened, why_not_shorter

ONE = Session("one", date(2026, 3, 2), 600, 720, (Part(120, "observation", "mat"),), host="host", state="waiting")
TWO = Session("two", date(2026, 3, 2), 600, 720, (Part(60, "assisting", "mat"), Part(45, "assisting", "chair")), 15)


def codes(session, *wish):
    return [fault.code for fault in why_not_shorter(session, Shorter(*wish))]


def test_the_only_part_follows_its_session():
    after = shortened(ONE, Shorter(600, 660))
    assert (after.version, after.minutes, [part.minutes for part in after.parts]) == (2, 60, [60])


def test_a_part_that_took_no_time_is_gone():
    assert codes(TWO, 600, 660, 0, (60, 0)) == []
    assert [part.apparatus for part in shortened(TWO, Shorter(600, 660, 0, (60, 0))).parts] == ["mat"]


@pytest.mark.parametrize(
    ("session", "wish", "found"),
    [
        (ONE, (600, 720), ["no-shorter"]),
        (ONE, (590, 650), ["longer"]),
        (ONE, (600, 730), ["longer", "no-shorter"]),
        (ONE, (660, 660), ["end-before-start"]),
        (ONE, (600, 660, 60), ["all-break"]),
        (TWO, (600, 690, 15, (60, 45)), ["parts-too-long"]),
        (TWO, (600, 700, 15, (10, 60)), ["part-longer"]),
        (TWO, (600, 700, 15, (0, 0)), ["nothing-left"]),
        (TWO, (610, 720, 5, (60, 45)), ["no-shorter"]),
    ],
)
def test_what_is_no_shortening_says_why(session, wish, found):
    assert codes(session, *wish) == found


MINUTE = some.integers(540, 780)


@given(MINUTE, MINUTE, some.integers(0, 60), some.tuples(some.integers(0, 90), some.integers(0, 90)))
def test_whatever_is_let_through_is_less_in_all_and_no_more_in_any_part(start, end, breaks, parts):
    if why_not_shorter(TWO, wish := Shorter(start, end, breaks, parts)):
        return
    after = shortened(TWO, wish)
    assert sum(part.minutes for part in after.parts) <= after.minutes < TWO.minutes
    assert TWO.start <= after.start < after.end <= TWO.end
    before = {part.apparatus: part.minutes for part in TWO.parts}
    assert all(0 < part.minutes <= before[part.apparatus] for part in after.parts)
