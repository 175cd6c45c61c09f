"""The least further time as a plan, and whether it still fits before the window's end."""

from collections.abc import Iterable
from datetime import date

from assessments.hours.pace import pace_of
from assessments.hours.solution import Optimum
from assessments.hours.standing import Plan, RuleStanding, up
from curriculum.requirements.requirement_set import RequirementSet


def plan_of(
    requirements: RequirementSet,
    best: Optimum,
    rules: Iterable[RuleStanding],
    as_of: date,
    end: date | None,
) -> Plan:
    """What is least still to do, category by category; the rest may be done in any of several."""
    steps = tuple((name, up(least)) for name, least in best.further_at_least.items() if up(least) > 0)
    further = up(best.further)
    rest = max(0, further - sum(minutes for _, minutes in steps))
    anywhere = tuple(one.id for one in requirements.categories) if rest else ()
    return Plan(steps, rest, anywhere, pace_of(requirements, further, dict(steps), rules, as_of, end))
