"""Small sets in which rules meet, each worked on paper beside it and asked of both solutions (common practice)."""

from datetime import date

import pytest

from tests.assessments.hours.oracle.command import Outcome, assess
from tests.assessments.hours.oracle.comparing import differences
from tests.assessments.hours.oracle.strategies import Files

HEADER = "trainee,id,date,minutes,activity,state,mode,host,client\n"
ONE = "title: x\ncategories:\n  - id: a\n    accepts: {activity: a}\n    at_least: "
AS_OF = date(2026, 6, 30)


@pytest.fixture
def both(tmp_path):
    """Further and credited minutes by the command, after its answer was held against the second solution."""

    def ask(set_text: str, *rows: str, facts: str | None = None, enrolled: date | None = None) -> Outcome:
        """A row is `date minutes activity` and then state, mode, host and client; a day without year is of 2026."""
        log = "".join(f"t1,{_row(number, row)}\n" for number, row in enumerate(rows, start=1))
        files = Files(set_text, HEADER + log, facts, enrolled, AS_OF)
        outcome = assess(files, tmp_path)
        assert differences(files, outcome) == []
        return outcome

    return ask


def _row(number: int, row: str) -> str:
    day, minutes, activity, *rest = row.split()
    state, mode, host, client = [*rest, *["", "", "", ""][len(rest) :]]
    day = day if len(day) == 10 else f"2026-{day}"
    state = {"": "signed_off", "+": "signed_off"}.get(state, state)
    shown = ("" if one == "-" else one for one in (mode, host, client))
    return ",".join((f"e{number}", day, minutes, activity, state, *shown))


def minutes(outcome: Outcome) -> tuple[int, int]:
    (answer,) = outcome.answers
    return answer["further_minutes"], answer["credited_minutes"]


def asides(outcome: Outcome) -> list[tuple[str, int, str]]:
    return [(line["entry"], line["minutes"], line["reason"]) for line in outcome.answers[0]["set_aside"]]


def test_floors_inside_floors_are_served_by_the_same_minute(both):
    """80 live with h2. Live with h1 lacks 40, and these 40 serve the category (lacking 20) and live (lacking none)."""
    set_text = f"""{ONE}100 min
    of_which:
      - {{id: live, accepts: {{mode: live}}, at_least: 60 %}}
      - {{id: live-h1, accepts: {{mode: live, host: h1}}, at_least: 40 min}}
"""
    assert minutes(both(set_text, "06-01 80 a + live h2")) == (40, 80)


@pytest.mark.parametrize(("share", "credited"), [("25 %", 325), ("25 % of credited", 400)])
def test_a_share_of_what_is_required_and_of_what_is_credited(both, share: str, credited: int):
    """100 required, 300 live, 150 recorded: 25 of 100, or r = (300 + r) / 4, so 100."""
    set_text = f"{ONE}100 min\n    limits: [{{id: film, accepts: {{mode: recorded}}, at_most: {share}}}]\n"
    found = both(set_text, "06-01 300 a + live", "06-02 150 a + recorded")
    assert minutes(found) == (0, credited)
    assert asides(found) == [("e2", 450 - credited, "share_cap")]


def test_a_ratio_to_another_category_is_worth_further_time_there(both):
    """60 of a are wanted and at most twice b. 15 of b: b must end at 30, so 15 further, where 5 would do for b alone."""
    set_text = f"""{ONE}60 min
    limits: [{{id: ratio, at_most: 200 % of b}}]
  - {{id: b, accepts: {{activity: b}}, at_least: 20 min}}
"""
    assert minutes(both(set_text, "06-01 100 a", "06-02 15 b")) == (15, 75)


def test_a_share_of_a_total_counts_further_time_of_that_total(both):
    """End 100 = 20 live + 30 online (30 %) + 50 further live; a larger end would ask for more further time."""
    set_text = f"""{ONE}50 min
totals: [{{id: total, of: all, at_least: 100 min}}]
limits: [{{id: online, accepts: {{mode: [live_remote, recorded]}}, at_most: 30 % of total}}]
"""
    assert minutes(both(set_text, "06-01 80 a + live_remote", "06-02 20 a + live")) == (50, 50)


def test_caps_for_each_host_bind_a_lesson_of_two_hosts_twice(both):
    """h1: e1 + e3 <= 50 and h2: e2 + e3 <= 50; most is e1 = e2 = 40, e3 = 10. The rest, 10, is with a third host."""
    set_text = f"{ONE}100 min\n    limits: [{{id: host, per: host, at_most: 50 %}}]\n"
    found = both(set_text, "06-01 40 a + - h1", "06-02 40 a + - h2", "06-03 40 a + - h1|h2")
    assert (minutes(found), asides(found)) == ((10, 90), [("e3", 30, "value_cap")])


def test_a_cap_for_each_client_as_a_share_of_what_is_credited(both):
    """End 60 = c1 30 (half) + c2 20 + 10 with a new client; without further time c1 and c2 end at 20 each."""
    set_text = f"{ONE}60 min\n    limits: [{{id: client, per: client, at_most: 50 % of credited}}]\n"
    assert minutes(both(set_text, "06-01 60 a + - - c1", "06-02 20 a + - - c2")) == (10, 50)


def test_a_cap_for_each_value_of_a_closed_list_leaves_time_of_the_others(both):
    """Live is full at 50 of 100; the further 50 are recorded. At 40 % nobody gets beyond 80."""
    set_text = (
        f"{ONE}100 min\n    limits: [{{id: mode, per: mode, at_most: 50 %}}]\nfields: {{mode: [live, recorded]}}\n"
    )
    assert minutes(both(set_text, "06-01 80 a + live")) == (50, 50)
    refused = both(set_text.replace("50 %", "40 %"), "06-01 80 a + live")
    assert (refused.status, "a, mode" in refused.faults) == (2, True)


GATED = ONE + "60 min\n  - {id: b, accepts: {activity: b}, at_least: 60 min}\n"


def test_a_gate_opens_with_all_that_is_dated_on_its_day(both):
    """30 + 30 of a by 3 June: b of 2 June earns nothing, b of 3 June does."""
    set_text = GATED + "gates: [{id: g, category: b, when: [{category: a, at_least: 60 min}]}]\n"
    found = both(set_text, "06-01 30 a", "06-02 20 b", "06-03 20 b", "06-03 30 a")
    assert (minutes(found), asides(found)) == ((40, 80), [("e2", 20, "before_gate")])


def test_entries_of_the_gated_category_help_to_open_its_gate_but_unsigned_ones_do_not(both):
    """Over all categories: 50 min signed off and 20 waiting are not 60; 10 more of b on 4 June open it."""
    set_text = GATED + "gates: [{id: g, category: b, when: [{total: all, at_least: 60 min}]}]\n"
    found = both(set_text, "06-01 50 b", "06-02 20 a waiting", "06-04 10 b", "06-05 5 b")
    assert minutes(found) == (105, 15)
    assert asides(found) == [("e1", 50, "before_gate"), ("e2", 20, "waiting")]


def test_a_gate_stays_shut_if_a_document_ran_out_before_the_rest_was_there(both):
    """Insured from 1 to 10 June, practical passed on the 12th: no day has both."""
    set_text = GATED + "gates: [{id: g, category: b, when: [{document: cover}, {practical: safety}]}]\n"
    facts = "t1: {documents: {cover: {from: 2026-06-01, to: 2026-06-10}}, practicals: {safety: 2026-06-12}}\n"
    rows = ("06-13 30 b", "06-13 30 a")
    found = both(set_text, *rows, facts=facts)
    assert minutes(found)[1] == 30


def test_two_of_three_are_chosen_as_costs_least(both):
    """a 100, b 60, all 130. With 60 of b: b and all leave 70, as do a and all; a and b leave 100."""
    set_text = f"""{ONE}100 min
  - {{id: b, accepts: {{activity: b}}, at_least: 60 min}}
totals: [{{id: t, of: all, at_least: 130 min}}]
choose: [{{id: two, at_least: 2, among: [a, b, t]}}]
"""
    assert minutes(both(set_text, "06-01 60 b")) == (70, 60)


def test_what_stands_inside_a_category_that_is_not_chosen_does_not_bind(both):
    """a asks for 10, but 50 with h1 inside; b asks for 40 and is cheaper, with 10 of a done or not."""
    set_text = f"""{ONE}10 min
    of_which: [{{id: h1, accepts: {{host: h1}}, at_least: 50 min}}]
  - {{id: b, accepts: {{activity: b}}, at_least: 40 min}}
choose: [{{id: one, at_least: 1, among: [a, b]}}]
"""
    assert minutes(both(set_text, "06-01 5 a + - h2")) == (40, 5)
    assert minutes(both(set_text, "06-01 20 a + - h1")) == (30, 20)


WINDOW = GATED + "window: {months: 1, extension_months: 1, lapses_after_months: 3}\n"


@pytest.mark.parametrize(
    ("facts", "last", "first_out"),
    [
        ("{modules: {m: 2026-03-01}}", "02-28", "03-01"),  # 31 January and a month, clipped
        ("{leave: [{from: 2026-02-10, to: 2026-02-19}]}", "03-10", "03-11"),  # ten days later
        ("{extensions: [2026-02-20]}", "03-28", "03-29"),  # the end, 28 February, and a month
        ("{extensions: [2026-02-20], leave: [{from: 2026-03-02, to: 2026-03-02}]}", "03-29", "03-30"),
    ],
)
def test_the_window_is_clipped_then_extended_then_moved_by_leave(both, facts, last, first_out):
    text = WINDOW.replace(", lapses_after_months: 3", "")
    found = both(text, f"{last} 30 a", f"{first_out} 30 a", facts=f"t1: {facts}\n", enrolled=date(2026, 1, 31))
    assert asides(found) == [("e2", 30, "after_window")]


def test_what_is_older_than_the_months_a_minute_lasts_has_lapsed(both):
    """Three months to 30 June: 30 March still counts, 29 March does not; nor do they open anything."""
    found = both(WINDOW, "03-29 30 a", "03-30 30 a", "03-31 30 a")
    assert (minutes(found), asides(found)) == ((60, 60), [("e1", 30, "lapsed")])


def test_an_entry_is_split_where_it_earns_half_in_one_place(both):
    """100 min earn 100 in b or 50 in a. b needs 40: four tenths; six tenths earn 30 in a, which is just enough."""
    set_text = """
title: x
categories:
  - {id: a, accepts: {activity: [a, c]}, at_least: 30 min, credit: {weights: [{accepts: {activity: c}, as: 50 %}]}}
  - {id: b, accepts: {activity: [b, c]}, at_least: 40 min}
"""
    found = both(set_text, "06-01 100 c")
    assert minutes(found) == (0, 70)
    assert [one["credited"] for one in found.answers[0]["categories"]] == [30, 40]


def test_session_lines_come_before_rounding_and_a_category_has_its_own_unit(both):
    """49 rounds to 45, 50 counts as 60, 61 rounds to 60, 14 is nothing: 165 of 4 units of 45 min, 15 are short."""
    credit = "credit: {round_down_to: 15 min, sessions: [{from: 50 min, to: 60 min, as: 1 h}]}"
    set_text = f"{ONE}4 h\n    unit: 45 min\n    {credit}\n"
    found = both(set_text, "06-01 49 a", "06-02 50 a", "06-03 61 a", "06-04 14 a")
    assert minutes(found) == (15, 165)
    assert asides(found) == [("e1", 4, "rounded_down"), ("e3", 1, "rounded_down"), ("e4", 14, "rounded_down")]


def test_parts_of_a_minute_are_shown_down_for_credit_and_up_for_what_is_left(both):
    """Three times 33.3 of 100 are 99.9: 99 are credited and 1 is to do; 2 more minutes (0.666) make it complete."""
    set_text = f"{ONE}100 min\n    credit: {{weights: [{{accepts: {{mode: recorded}}, as: 33.3 %}}]}}\n"
    rows = [f"06-0{day} 100 a + recorded" for day in (1, 2, 3)]
    assert minutes(both(set_text, *rows)) == (1, 99)
    assert minutes(both(set_text, *rows, "06-04 2 a + recorded")) == (0, 100)


def test_a_week_goes_from_monday_over_new_year(both):
    """29 December and 2 January are one ISO week (2026-W01) with 60 min; another week of 60 is still to do."""
    set_text = f"{ONE}60 min\n    variety: [{{id: weeks, of: week, at_least: 2, each: 60 min}}]\n"
    assert minutes(both(set_text, "2025-12-29 30 a", "2026-01-02 30 a")) == (60, 60)


def test_further_time_may_be_spread_over_as_many_new_days_as_it_fills(both):
    """100 of 300 are done on one day. The further 200 fill three more days of 60: none beyond the 200 is needed."""
    set_text = f"{ONE}300 min\n    variety: [{{id: days, of: day, at_least: 4, each: 60 min}}]\n"
    assert minutes(both(set_text, "06-01 100 a")) == (200, 100)
    assert minutes(both(set_text.replace("at_least: 4", "at_least: 5"), "06-01 100 a")) == (240, 100)


def test_variety_that_does_not_fit_under_the_ceiling_is_a_clash(both):
    """Three hosts of 30 min are 90, and the category takes 60."""
    set_text = f"{ONE}60 min\n    at_most: 60 min\n    variety: [{{id: hosts, of: host, at_least: 3, each: 30 min}}]\n"
    refused = both(set_text, "06-01 1 a")
    assert (refused.status, "a at_most, hosts" in refused.faults) == (2, True)


def test_a_half_done_host_is_finished_where_that_is_cheaper_than_a_new_one(both):
    """Two hosts of 60 min each, 120 in all: h1 has 50, h2 has 40, h3 has 40. 10 for h1 and 20 for h2 are 30."""
    set_text = f"{ONE}120 min\n    variety: [{{id: hosts, of: host, at_least: 2, each: 60 min}}]\n"
    assert minutes(both(set_text, "06-01 50 a + - h1", "06-02 40 a + - h2", "06-03 40 a + - h3")) == (30, 130)


def test_what_waits_is_worth_what_the_caps_would_let_through(both):
    """Of 40 signed off and 90 waiting on one day, capped at 60 a day, signing the rest off is worth 20."""
    set_text = f"{ONE}200 min\nlimits: [{{id: daily, per: day, at_most: 60 min}}]\n"
    found = both(set_text, "06-01 40 a", "06-01 90 a waiting")
    assert (minutes(found), found.answers[0]["waiting_minutes"]) == ((160, 40), 20)


def test_a_weekly_cap_as_a_share_grows_with_what_is_still_to_be_done(both):
    """At most half of a in one week: 100 needed, so 50 of the 80 of one week count now and 50 are further."""
    set_text = f"{ONE}100 min\nlimits: [{{id: week, per: week, at_most: 50 % of a}}]\n"
    assert minutes(both(set_text, "06-01 80 a")) == (50, 50)


def test_an_empty_value_is_under_no_cap_and_counts_as_no_host(both):
    """h1 is capped at 30; the entry without a host counts whole, but is no second host."""
    set_text = f"""{ONE}100 min
    limits: [{{id: host, per: host, at_most: 30 min}}]
    variety: [{{id: hosts, of: host, at_least: 2, each: 10 min}}]
"""
    assert minutes(both(set_text, "06-01 60 a + - h1", "06-02 70 a")) == (10, 100)
