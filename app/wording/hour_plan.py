"""What is least still to do, in sentences: the steps, the pace it takes, the last day to begin, and what is too late."""

from app.wording.dates import day_text
from app.wording.hours import hours
from app.wording.languages import ENGLISH, Language
from assessments.hours.standing import Pace, RuleStanding, Spell, Standing
from curriculum.faults import N_
from curriculum.requirements.requirement_set import RequirementSet


def plan_lines(requirements: RequirementSet, standing: Standing, language: Language = ENGLISH) -> list[str]:
    """What is least still to do, a sentence each; nothing if nothing is."""
    if standing.complete:
        return []
    lines = [_step(requirements, standing, name, minutes, language) for name, minutes in standing.plan.steps]
    if standing.plan.rest:
        names = language.listed([requirements.category(one).name for one in standing.plan.anywhere])
        sentence = N_("{time} more in any of {names}, as the rules allow")
        lines.append(language(sentence, time=hours(standing.plan.rest, language), names=names))
    return lines + pace_lines(requirements, standing.plan.pace, language)


def _step(requirements: RequirementSet, standing: Standing, name: str, minutes: int, language: Language) -> str:
    shown = {"time": hours(minutes, language), "category": requirements.category(name).name}
    inner = [_inner(one, language) for one in standing.rules if one.category == name and one.short]
    line = language(N_("{time} {category}"), **shown)
    if inner:
        line = language(N_("{time} {category}, {within}"), **shown, within=language.listed(inner))
    if any(0 < one.part < 1 for one in requirements.category(name).credit.weights):
        line = language(N_("{step}; time that counts in part takes longer by the clock"), step=line)
    return line


def _inner(rule: RuleStanding, language: Language) -> str:
    name = rule.title or rule.id
    if rule.kind == "of_which":
        return language(N_("{time} for {rule}"), time=hours(rule.short, language), rule=name)
    return language.ngettext("{number} more for {rule}", "{number} more for {rule}", rule.short, rule=name)


def pace_lines(requirements: RequirementSet, pace: Pace, language: Language = ENGLISH) -> list[str]:
    """Why it can't be done in time; or the pace it takes, and when the slowest rule has to begin."""
    end = day_text(pace.end, language.locale) if pace.end else ""
    sentence = N_("No longer possible by {day}, because {why}.")
    if pace.over:
        return [language(sentence, day=end, why=language(N_("the time allowed is over")))]
    if pace.too_long:
        found = [language(sentence, day=end, why=_takes(requirements, one, language)) for one in pace.too_long]
        return [*found, language(N_("Ask the school early what can be done: more time, or another way."))]
    if not pace.needed_a_week:
        return []
    found = [
        language.ngettext(
            "{time} a week until {day} ({number} day left)",
            "{time} a week until {day} ({number} days left)",
            pace.days_left,
            time=hours(pace.needed_a_week, language),
            day=end,
        )
    ]
    if pace.slowest:
        last, why = day_text(pace.slowest.begin, language.locale), _takes(requirements, pace.slowest, language)
        found.append(language(N_("To be begun by {day} at the latest: {why}"), day=last, why=why))
    return found


def _takes(requirements: RequirementSet, one: Spell, language: Language) -> str:
    if one.why == "variety":
        title = next(
            rule.title or rule.id for rule in requirements.category(one.category).variety if rule.id == one.rule
        )
        if one.per == "day":
            return language.ngettext(
                "{rule} asks for {number} more day", "{rule} asks for {number} more days", one.number, rule=title
            )
        return language.ngettext(
            "{rule} asks for {number} more calendar week",
            "{rule} asks for {number} more calendar weeks",
            one.number,
            rule=title,
        )
    what = hours(one.minutes, language)
    if one.category:
        what = language(N_("{time} {category}"), time=what, category=requirements.category(one.category).name)
    if one.per == "day":
        return language.ngettext(
            "{what} take {number} day at the most that one day may count",
            "{what} take {number} days at the most that one day may count",
            one.number,
            what=what,
        )
    return language.ngettext(
        "{what} take {number} calendar week at the most that one may count",
        "{what} take {number} calendar weeks at the most that one may count",
        one.number,
        what=what,
    )
