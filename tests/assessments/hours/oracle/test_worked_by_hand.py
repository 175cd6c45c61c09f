"""The second solution itself, against cases small enough to be worked on paper."""

from datetime import date
from fractions import Fraction

import pytest

from tests.assessments.hours.oracle.answer import Answer, can_be_met
from tests.assessments.hours.oracle.comparing import case_of
from tests.assessments.hours.oracle.credit import months_later
from tests.assessments.hours.oracle.strategies import Files

HEADER = "trainee,id,date,minutes,activity,state,mode,host\n"


def answer(set_text: str, rows: str) -> Answer:
    return Answer(case_of(Files(set_text, HEADER + rows, None, None, date(2026, 6, 30))))


def test_a_share_cap_counts_required_minutes_so_40_of_100_hours_recorded_give_25():
    """Common practice: 100 h required, 25 % recorded; 60 h live and 40 h recorded give 85 h, and 15 h are short."""
    set_text = """
title: x
categories:
  - {id: a, accepts: {activity: o}, at_least: 100 h, limits: [{id: r, accepts: {mode: recorded}, at_most: 25 %}]}
"""
    rows = "t,e1,2026-06-01,3600,o,signed_off,live,h\nt,e2,2026-06-02,2400,o,signed_off,recorded,h\n"
    solved = answer(set_text, rows)
    assert (solved.credited, solved.further) == pytest.approx((85 * 60, 15 * 60), abs=0.01)


def test_a_share_of_what_is_credited_grows_with_the_further_minutes():
    """Needs 100; 20 live and 90 recorded: 25 recorded count, as 25 of 100 in the end; 55 live are still to do."""
    set_text = """
title: x
categories:
  - id: a
    accepts: {activity: o}
    at_least: 100 min
    limits: [{id: r, accepts: {mode: recorded}, at_most: 25 % of credited}]
"""
    rows = "t,e1,2026-06-01,20,o,signed_off,live,h\nt,e2,2026-06-02,90,o,signed_off,recorded,h\n"
    solved = answer(set_text, rows)
    assert (solved.credited, solved.further) == pytest.approx((45, 55), abs=0.01)


def test_an_entry_is_split_by_shares_of_what_it_earns_in_each_category():
    """200 min earn 200 in a or 100 in b. a needs 120: share 0.6; the rest, 0.4, earns 40 in b; 60 are short there."""
    set_text = """
title: x
categories:
  - {id: a, accepts: {activity: o}, at_least: 120 min, at_most: 120 min}
  - {id: b, accepts: {activity: o}, at_least: 100 min, credit: {weights: [{accepts: {mode: live}, as: 50 %}]}}
"""
    solved = answer(set_text, "t,e1,2026-06-01,200,o,signed_off,live,h\n")
    assert (solved.credited_to("a"), solved.credited_to("b")) == pytest.approx((120, 40), abs=0.01)
    assert solved.further == pytest.approx(60, abs=0.01)


def test_hosts_with_too_little_are_no_variety_and_new_ones_cost_minutes():
    """Three hosts of 30 min each: h1 has 100 credited, h2 has 10 and needs 20 more, a new one needs 30."""
    set_text = """
title: x
categories:
  - id: a
    accepts: {activity: o}
    at_least: 60 min
    variety: [{id: v, of: host, at_least: 3, each: 30 min}]
"""
    rows = "t,e1,2026-06-01,100,o,signed_off,live,h1\nt,e2,2026-06-02,10,o,signed_off,live,h2\n"
    solved = answer(set_text, rows)
    assert (solved.credited, solved.further) == pytest.approx((110, 50), abs=0.01)
    assert solved.met_between("v") == (1, 1)


def test_a_cap_below_a_floor_can_be_met_by_nobody():
    set_text = """
title: x
categories:
  - {id: a, accepts: {activity: o}, at_least: 60 min, limits: [{id: l, accepts: {activity: o}, at_most: 50 %}]}
"""
    case = case_of(Files(set_text, HEADER + "t,e1,2026-06-01,1,o,waiting,live,h\n", None, None, date(2026, 6, 30)))
    assert not can_be_met(case)


def test_months_are_clipped_at_the_months_end():
    assert months_later(date(2026, 8, 31), 18) == date(2028, 2, 29)


def test_sessions_are_replaced_then_rounded_down_then_weighted():
    """55 counts as 60, rounded down to 25s is 50, at half weight 25."""
    set_text = """
title: x
categories:
  - id: a
    accepts: {activity: o}
    at_least: 60 min
    credit:
      round_down_to: 25 min
      sessions: [{from: 50 min, to: 60 min, as: 1 h}]
      weights: [{accepts: {mode: live}, as: 50 %}]
"""
    solved = answer(set_text, "t,e1,2026-06-01,55,o,signed_off,live,h\n")
    assert [amount for _, _, amount in solved.plan.earned] == [Fraction(25)]
