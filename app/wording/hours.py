"""Hours in words: durations, the reasons minutes are set aside, the plan, and the table of a standing."""

from collections import defaultdict

from assessments.hours.standing import RuleStanding, Standing
from curriculum.faults import N_
from curriculum.requirements.requirement_set import RequirementSet

REASONS = {
    "not_sent": N_("not sent for signature yet"),
    "waiting": N_("waiting for the host's signature"),
    "sent_back": N_("sent back by the host"),
    "withdrawn": N_("withdrawn"),
    "proof_not_accepted": N_("this category does not accept that kind of proof"),
    "no_category": N_("no category of the set takes such an entry"),
    "before_enrolment": N_("dated before enrolment"),
    "after_window": N_("dated after the end of the time allowed"),
    "lapsed": N_("too old: the hours have lapsed"),
    "after_as_of": N_("dated after the day of assessment"),
    "before_gate": N_("dated before the category was opened"),
    "rounded_down": N_("rounded down by the rule of the category"),
    "weighted": N_("such entries count only in part"),
    "day_cap": N_("more than one day may count"),
    "week_cap": N_("more than one week may count"),
    "session_cap": N_("more than one session may count"),
    "value_cap": N_("more than may count with one and the same host, client or other value"),
    "share_cap": N_("more than the share that this kind of time may have"),
    "part_cap": N_("more than this kind of time may count in the category"),
    "category_full": N_("the category is full"),
    "overall_cap": N_("more than this kind of time may count overall"),
    "other_rules": N_("the rules taken together leave no room for it"),
}
IMPOSSIBLE = {
    "window_over": N_("the time allowed is over"),
    "caps": N_("the caps leave too few hours before the end"),
    "variety": N_("too few days or weeks are left"),
}


def hours(minutes: int) -> str:
    """Minutes as hours and minutes: `12 h 30 min`."""
    whole, rest = divmod(abs(minutes), 60)
    shown = f"{whole} h {rest} min" if whole and rest else f"{rest} min" if rest else f"{whole} h"
    return f"−{shown}" if minutes < 0 else shown


def table(trainee: str, requirements: RequirementSet, standing: Standing) -> str:
    """A standing as plain text: the answer first, then rules, plan, and what was set aside."""
    parts = [
        _heading(trainee, requirements, standing),
        _categories(standing),
        _rules(standing),
    ]
    parts += [plan(requirements, standing), _asides(standing)]
    return "\n".join(part for part in parts if part) + "\n"


def _heading(trainee: str, requirements: RequirementSet, standing: Standing) -> str:
    edition = f", edition {requirements.edition}" if requirements.edition else ""
    if standing.complete:
        answer = "complete in hours"
    else:
        answer = f"at least {hours(standing.further_minutes)} still to do"
    window = "" if standing.window_applied else " (no window applied)"
    waiting = f"; {hours(standing.waiting_minutes)} waiting for signature" if standing.waiting_minutes else ""
    return (
        f"{trainee} · {requirements.title}{edition} · as of {standing.as_of}{window}\n"
        f"{answer}; {hours(standing.credited_minutes)} credited{waiting}\n"
    )


def _categories(standing: Standing) -> str:
    rows = [("category", "needed", "credited", "waiting", "at least to do")]
    for one in standing.categories:
        figures = (one.needed, one.credited, one.waiting, one.further_at_least)
        rows.append((one.title or one.id, *map(hours, figures)))
    return _aligned(rows)


def _rules(standing: Standing) -> str:
    if not standing.rules:
        return ""
    rows = [("rule", "needed", "met", "short")]
    rows += [
        (
            one.title or one.id,
            *(_figure(one, value) for value in (one.needed, one.met, one.short)),
        )
        for one in standing.rules
    ]
    return _aligned(rows)


def _figure(rule: RuleStanding, value: int) -> str:
    return hours(value) if rule.kind in ("of_which", "total") else str(value)


def plan(requirements: RequirementSet, standing: Standing) -> str:
    """What is least still to do, in words."""
    if standing.complete:
        return ""
    lines = ["Still to do:"]
    for name, minutes in standing.plan.steps:
        inner = [_inner(one) for one in standing.rules if one.category == name and one.short]
        weights = requirements.category(name).credit.weights
        note = (
            "; time that counts in part takes longer by the clock" if any(0 < one.part < 1 for one in weights) else ""
        )
        lines.append(
            f"  {hours(minutes)} {requirements.category(name).name}" + "".join(f", {one}" for one in inner) + note
        )
    if standing.plan.rest:
        names = ", ".join(requirements.category(one).name for one in standing.plan.anywhere)
        lines.append(f"  {hours(standing.plan.rest)} more in any of {names}, as the rules allow")
    return "\n".join(lines + _pace(standing)) + "\n"


def _inner(rule: RuleStanding) -> str:
    name = rule.title or rule.id
    return f"{hours(rule.short)} for {name}" if rule.kind == "of_which" else f"{rule.short} more for {name}"


def _pace(standing: Standing) -> list[str]:
    pace = standing.plan.pace
    found = [f"No longer possible by {pace.end}, because {IMPOSSIBLE[why]}." for why, _ in pace.impossible]
    if pace.needed_a_week and not found:
        found = [f"  {hours(pace.needed_a_week)} a week until {pace.end} ({pace.days_left} days left)"]
    return found


def _asides(standing: Standing) -> str:
    if not standing.set_aside:
        return ""
    sums: dict[str, list[int]] = defaultdict(list)
    for one in standing.set_aside:
        sums[one.reason].append(one.minutes)
    rows = [("set aside", "entries", "why")]
    rows += [(hours(sum(some)), str(len(some)), REASONS[reason]) for reason, some in sums.items()]
    return _aligned(rows)


def _aligned(rows: list[tuple[str, ...]]) -> str:
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    return (
        "\n".join(
            "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
        )
        + "\n"
    )
