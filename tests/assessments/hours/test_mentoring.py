"""A host's time with trainees, held against a count of minutes one by one."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as some

from assessments.hours.mentoring import mentoring
from assessments.hours.session import Part, Session

DAY = date(2026, 3, 2)


def session(start, end, breaks=0, day=0, mode="live", activity="observation"):
    part = Part(end - start - breaks, activity, mode=mode)
    return Session(f"{day}/{start}/{end}", DAY + timedelta(days=day), start, end, (part,), breaks, host="host")


def test_two_trainees_in_one_lesson_are_one_lesson_of_the_host():
    found = mentoring([("ada", session(600, 660)), ("bo", session(615, 675)), ("ada", session(700, 730, day=1))])
    assert (found.minutes, found.trainee_minutes) == (75 + 30, 60 + 60 + 30)
    assert (found.sessions, found.trainees, found.by_activity) == (3, 2, {"observation": 150})


def test_a_break_is_no_time_with_them_and_a_recording_is_none_of_the_hosts():
    found = mentoring([("ada", session(600, 720, 15)), ("ada", session(800, 860, mode="recorded"))])
    assert (found.minutes, found.trainee_minutes, found.sessions) == (105, 165, 2)


def test_nothing_signed_is_nothing():
    assert mentoring([]).minutes == 0


LESSON = some.tuples(some.integers(480, 600), some.integers(1, 90), some.integers(0, 2))


@given(some.lists(LESSON, max_size=8))
def test_it_is_the_number_of_minutes_in_which_anybody_was_there(lessons):
    there = [("ada", session(start, start + length, day=day)) for start, length, day in lessons]
    minutes = {(day, minute) for start, length, day in lessons for minute in range(start, start + length)}
    assert mentoring(there).minutes == len(minutes)
