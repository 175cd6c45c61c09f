"""The usual length of a session: the one that came up most, of two as common the later (worked by hand)."""

from dataclasses import replace
from datetime import date, timedelta

from assessments.hours.session import Part, Session
from assessments.hours.usual import usual_lengths


def sessions(activity: str, *lengths: int) -> list[Session]:
    one = Session("s", date(2026, 3, 1), 540, 600, (Part(60, activity),))
    return [
        replace(one, id=f"{activity}{place}", day=one.day + timedelta(days=place), end=540 + length)
        for place, length in enumerate(lengths)
    ]


def test_the_most_common_length_comes_first_and_of_two_the_one_used_last() -> None:
    found = usual_lengths([*sessions("seen", 60, 60, 45, 90, 45, 30), *sessions("own", 50)])
    assert found == {"seen": (45, 60, 30), "own": (50,)}


def test_what_was_withdrawn_or_is_long_ago_is_not_usual() -> None:
    old, new = sessions("seen", *[30] * 30), sessions("seen", *[60] * 20)
    late = [replace(one, day=one.day + timedelta(days=100)) for one in new]
    withdrawn = [replace(one, state="withdrawn") for one in sessions("own", 20)]
    assert usual_lengths([*old, *late, *withdrawn]) == {"seen": (60,)}
