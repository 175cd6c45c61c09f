"""Every kind of rule alone; figures are arithmetic by hand from the rule beside them (common practice)."""

from datetime import date, timedelta

import pytest

from app.files.requirements import requirements_from_text
from assessments.hours.assessing import assess
from assessments.hours.entry import Entry, Facts, Span
from assessments.hours.warning import would_earn

AS_OF = date(2026, 11, 25)
FIRST = date(2026, 1, 5)


def requirements(inside: str = "", after: str = "", at_least: str = "10 h"):
    inner = "".join(f"    {line}\n" for line in inside.splitlines())
    return requirements_from_text(
        f"title: One\ncategories:\n  - id: seen\n    accepts: {{activity: seen}}\n    at_least: {at_least}\n"
        f"{inner}{after}",
        "set.yaml",
    )


def entry(id: str, minutes: int, day: int = 0, state: str = "signed_off", activity: str = "seen", **fields: str):
    values = {name: tuple(text.split("|")) for name, text in fields.items() if text}
    return Entry(id, FIRST + timedelta(days=day), minutes, state, {"activity": (activity,)} | values)


def stand(read, *entries: Entry, facts: Facts | None = None, enrolled: date | None = None):
    found = assess(read, entries, facts or Facts(), as_of=AS_OF, enrolled=enrolled)
    for one in entries:
        credited = sum(line.minutes for line in found.given if line.entry == one.id)
        aside = sum(line.minutes for line in found.set_aside if line.entry == one.id)
        assert credited + aside == one.minutes
    return found


def reasons(found) -> list[tuple[str, int, str]]:
    return [(one.entry, one.minutes, one.reason) for one in found.set_aside]


@pytest.mark.parametrize(("per", "reason"), [("day", "day_cap"), ("week", "week_cap"), ("session", "session_cap")])
def test_a_cap_over_time_binds_what_is_logged_only(per: str, reason: str) -> None:
    read = requirements(f"limits: [{{id: cap, per: {per}, at_most: 4 h}}]")
    found = stand(read, entry("a", 200, session="s"), entry("b", 100, session="s"))
    assert (found.credited_minutes, found.further_minutes) == (240, 360)
    assert reasons(found) == [("b", 60, reason)]


def test_a_cap_per_host_leaves_time_with_new_hosts() -> None:
    read = requirements("limits: [{id: cap, per: host, at_most: 50 %}]")
    found = stand(read, entry("a", 400, host="h"), entry("b", 100, 1))
    assert (found.credited_minutes, found.further_minutes) == (400, 200)
    assert reasons(found) == [("a", 100, "value_cap")]


def test_several_values_count_for_each_cap_they_stand_under() -> None:
    read = requirements("limits: [{id: cap, per: host, at_most: 5 h}]")
    assert stand(read, entry("a", 200, host="h|i"), entry("b", 200, 1, host="h")).credited_minutes == 300


def test_distinct_values_each_with_enough_credit() -> None:
    read = requirements("variety: [{id: hosts, of: host, at_least: 3, each: 2 h}]")
    found = stand(read, entry("a", 480, host="h"), entry("b", 119, 1, host="i"), entry("c", 300, 2))
    # host i lacks 1 minute, a third host 120.
    assert (found.rules[0].met, found.further_minutes) == (1, 121)


def test_one_lesson_of_two_clients_counts_for_both() -> None:
    read = requirements("variety: [{id: clients, of: client, at_least: 3}]")
    found = stand(read, entry("a", 600, client="A|B"), entry("b", 60, 1, client=""))
    assert (found.rules[0].met, found.further_minutes) == (2, 1)


def test_weeks_with_an_hour_each_run_from_monday() -> None:
    read = requirements("variety: [{id: weeks, of: week, at_least: 3, each: 60 min}]")
    found = stand(read, entry("a", 60, 0), entry("b", 60, 6), entry("c", 60, 7), entry("d", 420, 7))
    assert (found.rules[0].met, found.further_minutes) == (2, 60)


def test_any_two_of_three_are_enough() -> None:
    others = "".join(
        f"  - {{id: {one}, accepts: {{activity: {one}}}, at_least: {hours} h}}\n"
        for one, hours in (("b", 5), ("c", 20))
    )
    read = requirements(after=others + "choose: [{id: two, at_least: 2, among: [seen, b, c]}]\n")
    assert stand(read).further_minutes == 15 * 60
    assert stand(read, entry("x", 19 * 60, activity="c")).further_minutes == 6 * 60


def test_half_weight_then_takes_twice_the_clock() -> None:
    read = requirements("credit: {weights: [{accepts: {late: yes}, as: 50 %}]}")
    found = stand(read, entry("a", 300, late="yes"), entry("b", 60, 1))
    assert (found.credited_minutes, reasons(found)) == (210, [("a", 150, "weighted")])


@pytest.mark.parametrize(("minutes", "credit"), [(49, 45), (50, 60), (60, 60), (61, 60), (75, 75), (14, 0)])
def test_a_lesson_of_fifty_minutes_counts_an_hour_and_others_go_down_to_a_quarter(minutes: int, credit: int) -> None:
    read = requirements("credit: {round_down_to: 15 min, sessions: [{from: 50 min, to: 60 min, as: 60 min}]}")
    found = assess(read, [entry("a", minutes)], as_of=AS_OF)
    assert found.credited_minutes == credit


def test_a_full_category_takes_no_more() -> None:
    found = stand(requirements("at_most: 12 h"), entry("a", 800))
    assert (found.credited_minutes, reasons(found)) == (720, [("a", 80, "category_full")])


@pytest.mark.parametrize("state", ["not_sent", "waiting", "sent_back", "withdrawn"])
def test_what_is_not_signed_earns_nothing_and_says_so(state: str) -> None:
    found = stand(requirements(), entry("a", 60, state=state))
    assert (found.credited_minutes, reasons(found)) == (0, [("a", 60, state)])
    assert found.waiting_minutes == (60 if state == "waiting" else 0)


SUPERVISED = "  - {id: led, accepts: {activity: led}, at_least: 10 h}\n"


def gated(when: str):
    return requirements(after=SUPERVISED + f"gates: [{{id: gate, category: led, when: [{when}]}}]\n")


def test_a_gate_opens_on_the_day_its_minutes_are_reached() -> None:
    led = [entry(f"l{day}", 60, day, activity="led") for day in (0, 1, 2)]
    seen = [entry("a", 60, 0), entry("b", 60, 1)]
    found = stand(gated("{category: seen, at_least: 2 h}"), *seen, *led)
    assert reasons(found) == [("l0", 60, "before_gate")]


def test_a_gate_asks_for_practicals_modules_and_documents_by_their_dates() -> None:
    read = gated("{practical: safety}, {module: one}, {document: cover}")
    led = [entry(f"l{day}", 60, day, activity="led") for day in (2, 3)]
    days = [FIRST + timedelta(days=day) for day in (1, 2, 3)]
    facts = Facts({"safety": days[0]}, {"one": days[1]}, {"cover": Span(days[2])})
    assert reasons(stand(read, *led, facts=facts)) == [("l2", 60, "before_gate")]
    assert len(reasons(stand(read, *led))) == 2


WINDOW = "window: {months: 1, extension_months: 1, lapses_after_months: 36}\n"


@pytest.mark.parametrize(
    ("facts", "last_day"),
    [
        (Facts(), 31),  # 5 January and one month: 5 February
        (Facts(extensions=(FIRST,)), 59),  # 5 March
        (Facts(leave=(Span(FIRST, FIRST + timedelta(days=9)),)), 41),  # ten days later
        (Facts(leave=(Span(FIRST, FIRST), Span(FIRST, FIRST))), 32),  # the same day of leave counts once
    ],
)
def test_the_window_ends_after_calendar_months_extensions_and_leave(facts: Facts, last_day: int) -> None:
    read = requirements(after=WINDOW)
    logged = [entry("early", 60, -1), entry("in", 60, last_day), entry("out", 60, last_day + 1)]
    found = stand(read, *logged, facts=facts, enrolled=FIRST)
    assert sorted(reasons(found)) == [("early", 60, "before_enrolment"), ("out", 60, "after_window")]
    assert stand(read, *logged).window_applied is False


def test_a_month_is_clipped_at_its_end() -> None:
    read = requirements(after=WINDOW)
    found = assess(read, [], as_of=AS_OF, enrolled=date(2026, 1, 31))
    assert found.plan.pace.end == date(2026, 2, 28)


def test_further_time_that_may_go_anywhere_is_certain_nowhere() -> None:
    read = requirements(after=SUPERVISED + "totals: [{id: total, of: all, at_least: 30 h}]\n")
    found = stand(read, entry("a", 60))
    assert [one.further_at_least for one in found.categories] == [540, 600]
    assert found.plan.rest == 600


def test_ratio_to_what_another_category_ends_with() -> None:
    # 200 % of 10 led hours: 25 seen hours are cut to 20; led may end higher, so nothing is cut in the end.
    read = requirements(
        "limits: [{id: ratio, at_most: 200 % of led}]", SUPERVISED.replace("10 h}", "10 h, at_most: 10 h}")
    )
    assert stand(read, entry("a", 25 * 60)).credited_minutes == 20 * 60


def test_a_session_that_would_earn_nothing_is_told_before() -> None:
    read = requirements("limits: [{id: cap, per: day, at_most: 4 h}]")
    done = [entry("a", 240)]
    found = would_earn(read, done, entry("b", 60), as_of=FIRST)
    assert (found.minutes, [one.reason for one in found.reasons]) == (0, ["day_cap"])
    assert would_earn(read, done, entry("b", 60, 1), as_of=FIRST).minutes == 60
