"""Hours evidence from a standing in hours."""

from datetime import date

from assessments.hours.standing import Plan, RuleStanding, Standing
from assessments.readiness.evidence import HoursEvidence, PlanLine, RuleLine


def hours_evidence(standing: Standing, pace: int | None = None) -> HoursEvidence:
    """What readiness needs of a standing; `pace` is the trainee's own minutes a week, if known."""
    titles = {one.id: one.title for one in standing.categories}
    return HoursEvidence(
        complete=standing.complete,
        further_minutes=standing.further_minutes,
        waiting_minutes=standing.waiting_minutes,
        credited_minutes=standing.credited_minutes,
        enrolled=standing.enrolled,
        window_end=_end(standing),
        rules=(*_category_lines(standing), *(_rule_line(one) for one in standing.rules)),
        plan=_plan_lines(standing.plan, titles),
        pace=pace,
        earliest_end=standing.earliest_end,
    )


def _end(standing: Standing) -> date | None:
    return standing.plan.pace.end if standing.window_applied else None


def _category_lines(standing: Standing) -> tuple[RuleLine, ...]:
    return tuple(
        RuleLine(one.id, one.title, "minutes", one.needed, one.credited, one.waiting, max(0, one.needed - one.credited))
        for one in standing.categories
    )


def _rule_line(one: RuleStanding) -> RuleLine:
    unit = "count" if one.kind in ("variety", "choose") else "minutes"
    return RuleLine(one.id, one.title, unit, one.needed, one.met, one.waiting, one.short)


def _plan_lines(plan: Plan, titles: dict[str, str]) -> tuple[PlanLine, ...]:
    named = tuple(PlanLine("in", (titles.get(id, id),), minutes) for id, minutes in plan.steps)
    if not plan.rest:
        return named
    return (*named, PlanLine("anywhere", tuple(titles.get(id, id) for id in plan.anywhere), plan.rest))
