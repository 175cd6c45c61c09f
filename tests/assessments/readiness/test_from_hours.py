"""A standing in hours becomes evidence for readiness."""

from datetime import date

from assessments.hours.standing import CategoryStanding, Pace, Plan, RuleStanding, Standing
from assessments.readiness.evidence import PlanLine, RuleLine
from assessments.readiness.from_hours import hours_evidence

END = date(2026, 12, 31)
STANDING = Standing(
    as_of=date(2026, 3, 1),
    enrolled=date(2025, 1, 1),
    window_applied=True,
    further_minutes=300,
    credited_minutes=900,
    waiting_minutes=60,
    categories=(CategoryStanding("watch", "Watching", 600, 500, 60, 100),),
    rules=(RuleStanding("hosts", "Hosts", "variety", "watch", 3, 2, 1),),
    given=(),
    set_aside=(),
    plan=Plan((("watch", 100),), 200, ("watch", "teach"), Pace(END, 305, 7, None)),
)


def test_amounts_units_and_plan_are_taken_over():
    found = hours_evidence(STANDING, pace=120)
    assert (found.complete, found.further_minutes, found.needed_minutes, found.window_end) == (False, 300, 1200, END)
    assert found.rules == (
        RuleLine("watch", "Watching", "minutes", 600, 500, 60, 100),
        RuleLine("hosts", "Hosts", "count", 3, 2, 0, 1),
    )
    assert found.plan == (PlanLine("in", ("Watching",), 100), PlanLine("anywhere", ("Watching", "teach"), 200))
