"""What bounds a signature; the least that is still allowed and the first that is not, by hand. Common practice."""

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

from assessments.hours.signing_rules import SigningBounds, signing_refusals, taught_minutes
from curriculum.requirements.requirement_set import Signing
from tests.app.test_rules_table import FIRST, SESSION

EVERY = Signing(14, Fraction(120), Fraction(180))


def test_the_last_that_is_allowed_is_allowed_and_all_that_is_not_is_said_at_once() -> None:
    two, three = (SESSION, SESSION), (replace(SESSION, end=720),)
    assert signing_refusals(SESSION, EVERY, SigningBounds(FIRST + timedelta(days=14), two, three)) == ()
    late, more = FIRST + timedelta(days=15), (replace(SESSION, end=721),)
    found = signing_refusals(SESSION, EVERY, SigningBounds(late, (*two, SESSION), more))
    assert [one.code for one in found] == ["signed-late", "too-much-at-once", "day-too-long"]


def test_a_lesson_with_several_trainees_is_counted_once_in_a_hosts_day() -> None:
    """9:00 to 10:00 twice, 9:30 to 10:30, and 11:00 to 12:00: two hours and a half."""
    log = (SESSION, replace(SESSION, start=570, end=630), SESSION, replace(SESSION, start=660, end=720))
    assert taught_minutes(log) == 150
