"""Standings worked out by hand from published tables."""

from datetime import date, timedelta

from app.files.requirements import requirements_from_text
from assessments.hours.assessing import assess
from assessments.hours.clashes import check
from assessments.hours.entry import Entry

AS_OF = date(2026, 11, 25)

YOGA = """
title: Two hundred hours
categories:
  - {id: techniques, accepts: {activity: techniques}, at_least: 75 h}
  - {id: anatomy, accepts: {activity: anatomy}, at_least: 30 h}
  - {id: humanities, accepts: {activity: humanities}, at_least: 30 h}
  - {id: professional, accepts: {activity: professional}, at_least: 50 h}
totals:
  - {id: total, of: all, at_least: 200 h}
"""
OBSERVING = """
title: Observing
categories:
  - id: observation
    accepts: {activity: observation}
    at_least: 100 h
    limits:
      - {id: recorded, accepts: {mode: recorded}, at_most: %s}
"""


def standing(text: str, *logged: tuple[str, int, dict[str, str]]):
    """`logged` holds activity, hours and further fields; each on a day of its own."""
    entries = [
        Entry(str(i), AS_OF - timedelta(days=i + 1), hours * 60, "signed_off",
              {"activity": (activity,)} | {name: (value,) for name, value in fields.items()})
        for i, (activity, hours, fields) in enumerate(logged)
    ]  # fmt: skip
    return assess(requirements_from_text(text, "set.yaml"), entries, as_of=AS_OF)


def test_four_categories_leave_fifteen_free_hours():
    # Yoga Alliance, Elevated RYS 200 (February 2020): 75, 30, 30 and 50 of 200 h, so 15 h are free.
    found = standing(YOGA)
    assert found.further_minutes == 200 * 60
    assert found.plan.rest == 15 * 60


def test_surplus_in_one_category_fills_only_the_free_hours():
    # Same table: 100 h of techniques are 75 + 15 free + 10 more than the total needs.
    found = standing(YOGA, ("techniques", 100, {}))
    assert found.further_minutes == (30 + 30 + 50) * 60
    assert found.credited_minutes == 100 * 60


def test_a_share_of_what_is_required():
    # 100 h, 25 % recorded: 60 live + 40 recorded give 85, short 15 (common practice).
    found = standing(
        OBSERVING % "25 %",
        ("observation", 60, {"mode": "live"}),
        ("observation", 40, {"mode": "recorded"}),
    )
    assert (found.credited_minutes, found.further_minutes) == (85 * 60, 15 * 60)
    assert [(one.minutes, one.reason) for one in found.set_aside] == [(15 * 60, "share_cap")]


def test_a_share_of_what_is_credited_is_of_the_end_amount():
    # 30 live + 40 recorded: 45 h further live end at 100 h with 25 recorded; arithmetic by hand.
    logged = (
        ("observation", 30, {"mode": "live"}),
        ("observation", 40, {"mode": "recorded"}),
    )
    assert standing(OBSERVING % "25 % of credited", *logged).further_minutes == 45 * 60
    # 120 live: a quarter of the end amount e is recorded, e = 120 + e/4 = 160, so all 40 h count.
    found = standing(
        OBSERVING % "25 % of credited",
        ("observation", 120, {"mode": "live"}),
        logged[1],
    )
    assert found.credited_minutes == 160 * 60


def test_units_of_forty_five_minutes():
    # Deutscher Pilates-Verband, Vereinsordnung: 100 units of 45 min, 80 attended and 20 observed, are 75 clock hours.
    text = """
title: Mat
unit: 45 min
categories:
  - {id: attended, accepts: {activity: attended}, at_least: 80 h}
  - {id: observed, accepts: {activity: observed}, at_least: 20 h}
"""
    assert standing(text).further_minutes == 75 * 60
    assert standing(text, ("attended", 60, {}), ("observed", 14, {})).further_minutes == 60


def test_a_set_nobody_could_meet_names_the_rules_that_clash():
    text = OBSERVING % "25 %" + "    of_which:\n      - {id: filmed, accepts: {mode: recorded}, at_least: 30 h}\n"
    (fault,) = check(requirements_from_text(text, "set.yaml"))
    assert fault.values["rules"] == "filmed, recorded"
