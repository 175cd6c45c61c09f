"""Hours in words: durations, the reasons minutes are set aside, and the plan."""

from app.wording.dates import day_text
from app.wording.languages import ENGLISH, Language
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
COURSES = {
    "complete": (N_("Complete in hours"), "done"),
    "over": (N_("Time is over"), "behind"),
    "behind": (N_("Behind plan"), "behind"),
    "on-course": (N_("On course"), "quiet"),
}
IMPOSSIBLE = {
    "window_over": N_("the time allowed is over"),
    "caps": N_("the caps leave too few hours before the end"),
    "variety": N_("too few days or weeks are left"),
}


def hours(minutes: int, language: Language = ENGLISH) -> str:
    """Minutes as hours and minutes: `12 h 30 min`."""
    whole, rest = divmod(abs(minutes), 60)
    if whole and rest:
        shown = language(N_("{hours} h {minutes} min"), hours=language.figure(whole), minutes=rest)
    elif rest:
        shown = language(N_("{minutes} min"), minutes=rest)
    else:
        shown = language(N_("{hours} h"), hours=language.figure(whole))
    return f"−{shown}" if minutes < 0 else shown


def figure(rule: RuleStanding, value: int, language: Language = ENGLISH) -> str:
    """What a rule asks for or holds: a time, or a count of different values."""
    return hours(value, language) if rule.kind in ("of_which", "total") else language.figure(value)


def aside_text(minutes: int, reason: str, language: Language = ENGLISH) -> str:
    """How much is set aside, and why."""
    return language(N_("{time}: {why}"), time=hours(minutes, language), why=language(REASONS[reason]))


def plan_lines(requirements: RequirementSet, standing: Standing, language: Language = ENGLISH) -> list[str]:
    """What is least still to do, a sentence each; nothing if nothing is."""
    if standing.complete:
        return []
    lines = [_step(requirements, standing, name, minutes, language) for name, minutes in standing.plan.steps]
    if standing.plan.rest:
        names = language.listed([requirements.category(one).name for one in standing.plan.anywhere])
        sentence = N_("{time} more in any of {names}, as the rules allow")
        lines.append(language(sentence, time=hours(standing.plan.rest, language), names=names))
    return lines + _pace(standing, language)


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


def _pace(standing: Standing, language: Language) -> list[str]:
    pace = standing.plan.pace
    end = day_text(pace.end, language.locale) if pace.end else ""
    sentence = N_("No longer possible by {day}, because {why}.")
    found = [language(sentence, day=end, why=language(IMPOSSIBLE[why])) for why, _ in pace.impossible]
    if pace.needed_a_week and not found:
        left, week = pace.days_left, hours(pace.needed_a_week, language)
        found = [
            language.ngettext(
                "{time} a week until {day} ({number} day left)",
                "{time} a week until {day} ({number} days left)",
                left,
                time=week,
                day=end,
            )
        ]
    return found
