"""A standing as plain text, for the command line: the answer first, then rules, plan, and what was set aside."""

from collections import defaultdict

from app.wording.dates import day_text
from app.wording.hour_plan import plan_lines
from app.wording.hours import REASONS, figure, hours
from app.wording.languages import ENGLISH, Language
from assessments.hours.standing import Standing
from curriculum.faults import N_
from curriculum.requirements.requirement_set import RequirementSet


def table(trainee: str, requirements: RequirementSet, standing: Standing, language: Language = ENGLISH) -> str:
    """A standing as plain text, with columns kept apart by blanks."""
    parts = [
        _heading(trainee, requirements, standing, language),
        _categories(standing, language),
        _rules(standing, language),
        _plan(requirements, standing, language),
        _asides(standing, language),
    ]
    return "\n".join(part for part in parts if part) + "\n"


def _heading(trainee: str, requirements: RequirementSet, standing: Standing, language: Language) -> str:
    title = requirements.title
    if requirements.edition:
        title = language(N_("{title}, edition {edition}"), title=title, edition=requirements.edition)
    as_of = N_("as of {day}") if standing.window_applied else N_("as of {day} (no window applied)")
    day = language(as_of, day=day_text(standing.as_of, language.locale))
    shown = {
        "further": hours(standing.further_minutes, language),
        "credited": hours(standing.credited_minutes, language),
        "waiting": hours(standing.waiting_minutes, language),
    }
    return f"{trainee} · {title} · {day}\n{language(_answer(standing), **shown)}\n"


def _answer(standing: Standing) -> str:
    if standing.complete and standing.waiting_minutes:
        return N_("complete in hours; {credited} credited; {waiting} waiting for signature")
    if standing.complete:
        return N_("complete in hours; {credited} credited")
    if standing.waiting_minutes:
        return N_("at least {further} still to do; {credited} credited; {waiting} waiting for signature")
    return N_("at least {further} still to do; {credited} credited")


def _categories(standing: Standing, language: Language) -> str:
    heads = (N_("category"), N_("needed"), N_("credited"), N_("waiting"), N_("at least to do"))
    rows = [tuple(map(language, heads))]
    for one in standing.categories:
        figures = (one.needed, one.credited, one.waiting, one.further_at_least)
        rows.append((one.title or one.id, *(hours(minutes, language) for minutes in figures)))
    return _aligned(rows)


def _rules(standing: Standing, language: Language) -> str:
    if not standing.rules:
        return ""
    rows = [tuple(map(language, (N_("rule"), N_("needed"), N_("met"), N_("short"))))]
    rows += [
        (one.title or one.id, *(figure(one, value, language) for value in (one.needed, one.met, one.short)))
        for one in standing.rules
    ]
    return _aligned(rows)


def _plan(requirements: RequirementSet, standing: Standing, language: Language) -> str:
    lines = plan_lines(requirements, standing, language)
    return "\n".join([language(N_("Still to do:")), *(f"  {line}" for line in lines)]) + "\n" if lines else ""


def _asides(standing: Standing, language: Language) -> str:
    if not standing.set_aside:
        return ""
    sums: dict[str, list[int]] = defaultdict(list)
    for one in standing.set_aside:
        sums[one.reason].append(one.minutes)
    rows = [tuple(map(language, (N_("set aside"), N_("entries"), N_("why"))))]
    rows += [
        (hours(sum(some), language), language.figure(len(some)), language(REASONS[reason]))
        for reason, some in sums.items()
    ]
    return _aligned(rows)


def _aligned(rows: list[tuple[str, ...]]) -> str:
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    lines = ("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows)
    return "\n".join(lines) + "\n"
