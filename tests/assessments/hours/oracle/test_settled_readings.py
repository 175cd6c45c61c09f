"""Readings of the rules on which two solutions could differ, each worked on paper and asked of both."""

from datetime import date

import pytest

from tests.assessments.hours.oracle.command import Outcome, assess
from tests.assessments.hours.oracle.comparing import differences
from tests.assessments.hours.oracle.strategies import Files

HEADER = "trainee,id,date,minutes,activity,state,mode,host,session\n"


@pytest.fixture
def both(tmp_path):
    """The command's outcome on a set and a log, after it was held against the second solution."""

    def ask(set_text: str, rows: str) -> Outcome:
        files = Files(set_text, HEADER + rows, None, None, date(2026, 6, 30))
        outcome = assess(files, tmp_path)
        assert differences(files, outcome) == []
        return outcome

    return ask


def given(outcome: Outcome) -> dict[str, int]:
    return {line["entry"]: line["minutes"] for line in outcome.answers[0]["given"]}


def test_an_entry_without_a_session_is_under_no_cap_per_session_and_counts_in_no_variety_of_sessions(both):
    """60 of the 90 min in session s count; the 90 min of no session all count: 150 of 200. One session is seen."""
    set_text = """
title: x
categories:
  - id: a
    accepts: {activity: o}
    at_least: 200 min
    limits: [{id: long, per: session, at_most: 60 min}]
    variety: [{id: sessions, of: session, at_least: 2}]
"""
    found = both(set_text, "t,e1,2026-06-01,90,o,signed_off,live,h,s\nt,e2,2026-06-02,90,o,signed_off,live,h,\n")
    (answer,) = found.answers
    assert (answer["credited_minutes"], answer["further_minutes"]) == (150, 50)
    assert [(rule["id"], rule["met"]) for rule in answer["rules"]] == [("sessions", 1)]


MORE_MODES_THAN_THERE_ARE = """
title: x
fields: {mode: [live, recorded]}
categories:
  - id: a
    accepts: {activity: o}
    at_least: 60 min
    variety:
      - {id: modes, of: mode, at_least: 3}
      - {id: hosts, of: host, at_least: 2, each: 20 min}
"""


def test_a_variety_of_more_values_than_there_are_is_no_fault_where_it_need_not_be_chosen(both):
    """Hosts are chosen: h has its 20 min, another needs 20; 60 - 30 = 30 further minutes hold these 20."""
    chosen = "choose: [{id: one, at_least: 1, among: [modes, hosts]}]\n"
    found = both(MORE_MODES_THAN_THERE_ARE + chosen, "t,e1,2026-06-01,30,o,signed_off,live,h,s\n")
    assert found.answers[0]["further_minutes"] == 30


@pytest.mark.parametrize("chosen", ["", "choose: [{id: both, at_least: 2, among: [modes, hosts]}]\n"])
def test_a_variety_of_more_values_than_there_are_is_a_fault_where_it_must_hold(both, chosen: str):
    found = both(MORE_MODES_THAN_THERE_ARE + chosen, "t,e1,2026-06-01,30,o,signed_off,live,h,s\n")
    assert found.status == 2
    assert "modes" in found.faults or "2 values that can occur" in found.faults


def test_the_place_of_an_entry_is_among_all_that_were_logged(both):
    """A (h1, h2) and D (h3, h4), or B (h1, h3) and C (h2, h4), fill the four caps of 60 min: 120 min either way.

    Places are A 1, N 2 and M 3 (never sent), B 4, C 5, E 6, D 7: 1 + 7 < 4 + 5, so A and D count. Among the entries
    that earn they would be A 1, B 2, C 3, E 4, D 5: 1 + 5 > 2 + 3.
    """
    set_text = """
title: x
categories:
  - {id: a, accepts: {activity: o}, at_least: 10 h, limits: [{id: host, per: host, at_most: 60 min}]}
  - {id: b, accepts: {activity: p}, at_least: 10 h}
"""
    rows = "".join(
        f"t,{name},2026-06-0{day},60,{activity},{state},live,{host},\n"
        for day, (name, activity, state, host) in enumerate(
            (
                ("A", "o", "signed_off", "h1|h2"), ("N", "o", "not_sent", "h9"), ("M", "o", "not_sent", "h9"),
                ("B", "o", "signed_off", "h1|h3"), ("C", "o", "signed_off", "h2|h4"), ("E", "p", "signed_off", ""),
                ("D", "o", "signed_off", "h3|h4"),
            ),
            start=1,
        )
    )  # fmt: skip
    assert given(both(set_text, rows)) == {"A": 60, "D": 60, "E": 60}


def test_credit_does_not_drift_between_categories_that_pay_nearly_the_same(both):
    """24,000 min earn 24,000 in b or 23,976 in a. Most credit is all in b; a, declared first, keeps its own 60."""
    set_text = """
title: x
categories:
  - id: a
    accepts: {activity: [o, p]}
    at_least: 60 min
    credit: {weights: [{accepts: {activity: o}, as: 99.9 %}]}
  - {id: b, accepts: {activity: o}, at_least: 600 h}
"""
    rows = "".join(f"t,e{day:02},2026-05-{day:02},1200,o,signed_off,live,h,\n" for day in range(1, 21))
    (answer,) = both(set_text, rows + "t,f,2026-06-01,60,p,signed_off,live,h,\n").answers
    assert [one["credited"] for one in answer["categories"]] == [60, 24_000]
    assert answer["further_minutes"] == 12_000


def test_a_floor_in_parts_of_a_minute_that_is_met_is_not_a_minute_short(both):
    """33.3 % of 600 min are 199.8; floor and cap are both there, and 199.8 min are credited: none is short."""
    set_text = """
title: x
categories:
  - id: a
    accepts: {activity: o}
    at_least: 10 h
    of_which: [{id: filmed, accepts: {mode: recorded}, at_least: 33.3 %}]
    limits: [{id: film, accepts: {mode: recorded}, at_most: 33.3 %}]
"""
    rows = "t,e1,2026-06-01,300,o,signed_off,recorded,h,\nt,e2,2026-06-02,600,o,signed_off,live,h,\n"
    (answer,) = both(set_text, rows).answers
    (rule,) = answer["rules"]
    assert (rule["needed"], rule["met"], rule["short"], answer["further_minutes"]) == (200, 200, 0, 0)
