"""The latest day to begin and what is no longer possible: days counted by hand on the calendar of 2026.

25 November 2026 is a Wednesday; common practice: so much a day and so much a week may count.
"""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.wording.hour_plan import pace_lines
from assessments.hours.assessing import assess
from curriculum.requirements.requirement_set import Window
from tests.app.test_rules_table import AS_OF, asked

DAILY = "limits: [{id: cap, per: day, at_most: 4 h}]"
WEEKS = "variety: [{id: weeks, of: week, at_least: 4}]"


def pace(read, enrolled: date):  # noqa: ANN001, ANN201
    return assess(read, [], as_of=AS_OF, enrolled=enrolled).plan.pace


def ends(days: int, rule: str, after: str = ""):  # noqa: ANN201
    """The pace where the window of one month ends so many days from today."""
    read = replace(asked(rule, after=after), window=Window(months=1))
    enrolled = next(
        day
        for back in range(40)
        if (day := AS_OF - timedelta(days=back)) and pace(read, day).end == AS_OF + timedelta(days)
    )
    return read, pace(read, enrolled)


@pytest.mark.parametrize(
    ("rule", "days", "begin"),
    [
        (DAILY, 5, date(2026, 11, 28)),  # 10 h at 4 h a day: three days, 28, 29 and 30 November
        (DAILY, 2, date(2026, 11, 25)),  # today and two more: it just fits
        (WEEKS, 26, date(2026, 12, 6)),  # to Monday 21 December: four calendar weeks from Sunday 6 December on
        ("limits: [{id: cap, per: week, at_most: 3 h}]", 26, date(2026, 12, 6)),  # 10 h at 3 h a week: four weeks
        (
            "limits: [{id: cap, per: day, at_most: 25 %}]",
            9,
            date(2026, 12, 1),
        ),  # 2 h 30 min a day: four days to 4 December
    ],
)
def test_the_latest_day_to_begin_is_the_last_from_which_the_slowest_rule_fits(
    rule: str, days: int, begin: date
) -> None:
    _, found = ends(days, rule)
    assert (found.slowest.begin, found.too_long) == (begin, ())


def test_a_cap_over_everything_binds_too_and_the_slowest_rule_is_the_one_that_has_to_begin_first() -> None:
    _, found = ends(9, DAILY, "limits: [{id: whole, per: day, at_most: 2 h}]\n")
    assert (found.slowest.rule, found.slowest.number, found.slowest.begin) == ("whole", 5, date(2026, 11, 30))


def test_what_no_longer_fits_is_said_with_the_rule_and_a_day_earlier_it_still_fitted() -> None:
    read, found = ends(1, DAILY)
    assert [(one.rule, one.begin) for one in found.too_long] == [("cap", date(2026, 11, 24))]
    assert pace_lines(read, found)[0] == (
        "No longer possible by 26 Nov 2026, because 10 h seen take 3 days at the most that one day may count."
    )
    assert ends(2, DAILY)[1].too_long == ()


def test_weeks_that_are_not_left_are_said_to_be_missing() -> None:
    read, found = ends(10, WEEKS)
    assert "because weeks asks for 4 more calendar weeks." in pace_lines(read, found)[0]
    assert "To be begun by 6 Dec 2026 at the latest: weeks asks for 4 more calendar weeks" in pace_lines(
        *ends(26, WEEKS)
    )


def test_after_the_end_the_time_is_over() -> None:
    read = replace(asked(), window=Window(months=1))
    assert "the time allowed is over" in pace_lines(read, pace(read, date(2026, 1, 1)))[0]
