"""How many watch at once, held against a count minute by minute."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as some

from assessments.hours.company import observers_at_once
from assessments.hours.session import Part, Session

DAY = date(2026, 3, 2)


def watching(start, end, activity="observation", mode="live", day=DAY):
    return Session("x", day, start, end, (Part(end - start, activity, mode=mode),), host="host")


def test_who_only_assists_or_watches_a_recording_or_another_day_is_not_counted():
    others = (
        watching(600, 660, "assisting"),
        watching(600, 660, mode="recorded"),
        watching(600, 660, day=date(2026, 3, 3)),
    )
    assert observers_at_once(watching(600, 660), others) == 1
    assert observers_at_once(watching(600, 660, "assisting"), [watching(600, 660)]) == 0


SPAN = some.tuples(some.integers(0, 60), some.integers(1, 60)).map(lambda pair: (600 + pair[0], 600 + sum(pair)))


@given(SPAN, some.lists(SPAN, max_size=5))
def test_it_is_the_most_at_any_minute(own, others):
    found = observers_at_once(watching(*own), [watching(*one) for one in others])
    counted = max(sum(start <= minute < end for start, end in [own, *others]) for minute in range(*own))
    assert found == counted
