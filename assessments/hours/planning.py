"""The least further time as a plan, and whether it still fits before the window's end."""

from collections.abc import Iterable
from datetime import date
from fractions import Fraction

from assessments.hours.solution import Optimum
from assessments.hours.standing import Pace, Plan, RuleStanding, up
from curriculum.requirements.amounts import Share
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
    return Plan(steps, rest, anywhere, _pace(requirements, further, tuple(rules), as_of, end))


def _pace(
    requirements: RequirementSet,
    further: int,
    rules: tuple[RuleStanding, ...],
    as_of: date,
    end: date | None,
) -> Pace:
    most = most_a_week(requirements)
    if end is None or further == 0:
        return Pace(end, None if end is None else (end - as_of).days, None, most)
    left = max(0, (end - as_of).days)
    weeks = Fraction(left, 7)
    needed = up(further / weeks) if weeks else None
    impossible = []
    if needed is None:
        impossible.append(("window_over", ""))
    elif most is not None and further > most * weeks:
        impossible.append(("caps", ""))
    impossible += [("variety", one.id) for one in rules if _too_many(requirements, one, left)]
    return Pace(end, left, needed, most, tuple(impossible))


def most_a_week(requirements: RequirementSet) -> int | None:
    """The most minutes a week that the overall caps per day and week allow."""
    found = []
    for cap in requirements.limits:
        if cap.per in ("day", "week") and not isinstance(cap.at_most, Share) and not cap.accepts:
            found.append(cap.at_most * (7 if cap.per == "day" else 1))
    return int(min(found)) if found else None


def _too_many(requirements: RequirementSet, rule: RuleStanding, left: int) -> bool:
    if rule.kind != "variety":
        return False
    of = next(one.of for one in requirements.category(rule.category).variety if one.id == rule.id)
    return (of == "week" and rule.short > left // 7 + 1) or (of == "day" and rule.short > left)
