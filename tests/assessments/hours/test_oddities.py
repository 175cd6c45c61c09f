"""What is worth a question: the edges by hand, and a labelled log (`assessments/hours/simulated_logs.py`)."""

from dataclasses import replace
from datetime import date, datetime, timedelta

import numpy as np
import pytest

from assessments.hours.oddities import Logged, Thresholds, questions
from assessments.hours.oddity_study import found_and_right
from assessments.hours.session import Part, Session
from assessments.hours.simulated_logs import simulated_log

DAY = date(2026, 11, 2)
NOTE = "The client kept the neutral spine through the whole series."


def logged(start=600, minutes=60, site="north", day=DAY, late=0, mode="live", **more):
    session = Session(
        f"{day}/{start}/{site}", day, start, start + minutes, (Part(minutes, "observation", mode=mode),),
        host="host", site=site, state="waiting",
    )  # fmt: skip
    at = datetime(day.year, day.month, day.day, 20) + timedelta(days=late)
    return Logged(session, more.get("trainee", "ida"), more.get("at", at), more.get("note", ""))


def kinds(*log, today=DAY):
    return sorted({one.kind for one in questions(log, today)})


@pytest.mark.parametrize(
    ("log", "asked"),
    [
        ([logged(), logged(659)], ["two-places"]),
        ([logged(), logged(660)], []),
        ([logged(), logged(674, site="south")], ["travel"]),
        ([logged(), logged(675, site="south")], []),
        ([logged(), logged(660, site="south", mode="recorded")], []),
        ([logged(), logged(trainee="bo", site="south")], ["host-elsewhere"]),
        ([logged(), logged(trainee="bo")], []),
        ([logged(minutes=601)], ["full-day"]),
        ([logged(minutes=600), logged(minutes=600, trainee="bo")], []),
        ([logged(late=29)], ["long-after"]),
        ([logged(late=28)], []),
    ],
)
def test_where_a_question_begins(log, asked):
    assert kinds(*log) == asked


def test_a_note_is_copied_on_three_days_and_stock_words_never():
    days = [DAY + timedelta(days=place) for place in range(3)]
    assert kinds(*(logged(day=day, note=NOTE.upper() + " ") for day in days)) == ["copied-notes"]
    assert kinds(*(logged(day=day, note=NOTE) for day in days[:2])) == []
    assert kinds(*(logged(day=day, note="Watched a class.") for day in days)) == []


def test_many_days_in_one_go_are_one_question():
    at = datetime(2026, 11, 10, 22)
    log = [logged(day=DAY + timedelta(days=n), at=at + timedelta(minutes=n)) for n in range(8)]
    (one,) = questions(log, DAY)
    assert (one.kind, len(one.sessions)) == ("in-one-go", 8)
    assert questions(log[:7], DAY) == ()


def test_a_question_lapses_and_a_withdrawn_session_asks_nothing():
    late = logged(late=30)
    last = late.at.date() + timedelta(days=Thresholds().expires_days)
    assert kinds(late, today=last) == ["long-after"]
    assert kinds(late, today=last + timedelta(days=1)) == []
    assert kinds(replace(late, session=replace(late.session, state="withdrawn"))) == []


def test_a_labelled_log_is_asked_about_as_the_table_in_the_docs_says():
    found = found_and_right(simulated_log(np.random.default_rng(1)))
    low = {"travel/precision", "travel/recall", "copied-notes/precision", "copied-notes/recall"}
    assert {key for key, one in found.items() if one.mean() < 1} == low
    assert all(found[key].mean() >= 0.5 for key in low)
