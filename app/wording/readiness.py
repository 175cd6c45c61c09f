"""Readiness in words: each criterion, each thing to do, who does it, and the answer on top."""

from collections.abc import Mapping
from datetime import date

from app.wording.dates import day_text
from app.wording.hours import hours
from app.wording.languages import ENGLISH, Language
from assessments.readiness.criteria import Who
from assessments.readiness.evidence import PlanLine
from assessments.readiness.report import CriterionLine, Gap, ReadinessReport
from curriculum.faults import N_

WHO: Mapping[Who, str] = {
    "trainee": N_("trainee"),
    "host": N_("host"),
    "examiner": N_("examiner"),
    "school": N_("school"),
}
LINES: Mapping[str, str] = {
    "hours-complete": N_("complete, {credited} credited"),
    "hours-short": N_("{credited} credited, at least {further} still to do"),
    "hours-early": N_("complete, {credited} credited; the training takes until {until}"),
    "hours-unknown": N_("no standing yet"),
    "practical-passed": N_("passed on {on}"),
    "practical-open": N_("not taken yet"),
    "practical-booked": N_("booked for {on}"),
    "practical-marking": N_("taken, sheets are coming in"),
    "practical-deciding": N_("taken, waiting for the decision"),
    "practical-referred": N_("referred"),
    "practical-failed": N_("failed"),
    "document-holds": N_("valid until {ends}"),
    "document-unchecked": N_("handed in, not checked yet"),
    "document-missing": N_("not handed in"),
    "document-expires": N_("ends on {ends}, before {day}"),
    "document-out-of-date": N_("not valid on {day}"),
    "module-completed": N_("completed on {on}"),
    "module-open": N_("not booked"),
    "module-booked": N_("booked for {on}"),
    "module-attended": N_("attended, not registered yet"),
}
WITHOUT_DAY: Mapping[str, str] = {
    "practical-passed": N_("passed"),
    "practical-booked": N_("booked"),
    "document-holds": N_("valid, no end"),
    "module-completed": N_("completed"),
    "module-booked": N_("booked"),
    "practical-take": N_("Take the practical."),
    "module-take": N_("Take the module."),
    "practical-again": N_("Take again: {parts}. Attempts left: {attempts_left}."),
    "document-renew": N_("Renew it; it is not valid on {day}."),
}
TO_DO: Mapping[str, str] = {
    "hours-sign": N_("Sign the {minutes} that are waiting."),
    "hours-do": N_("Do and send at least {minutes}: {plan}."),
    "hours-wait": N_("Every hour is done. The training takes until {until} at least."),
    "hours-unknown": N_("Work out the standing in hours."),
    "practical-apply": N_("Apply for the practical."),
    "practical-take": N_("Take the practical on {on}."),
    "practical-mark": N_("Send the sheets."),
    "practical-decide": N_("Decide on the outcome."),
    "practical-again": N_("Take again from {again_from}: {parts}. Attempts left: {attempts_left}."),
    "practical-no-attempt": N_("No attempt is left: say what is possible now."),
    "document-hand-in": N_("Hand it in, valid on {day}."),
    "document-check": N_("Check what was handed in."),
    "document-renew": N_("Renew it: it ends on {ends}, before {day}."),
    "module-book": N_("Book the module."),
    "module-take": N_("Take the module on {on}."),
    "module-register": N_("Register the attendance."),
}
PLAN: Mapping[str, str] = {"in": N_("{minutes} of {titles}"), "anywhere": N_("{minutes} in any category")}


def criterion_text(line: CriterionLine, language: Language = ENGLISH) -> str:
    """How a criterion stands."""
    return _fill(LINES, line.code, line.values, language)


def gap_text(gap: Gap, language: Language = ENGLISH) -> str:
    """What is to be done next."""
    return _fill(TO_DO, gap.code, gap.values, language)


def waits_text(gap: Gap, titles: Mapping[str, str], language: Language = ENGLISH) -> str:
    """What has to be cleared first; empty when it can start today."""
    if gap.can_start_today:
        return ""
    named = language.listed([titles[id] for id in gap.waits_for])
    return language(N_("Can't start before: {named}."), named=named)


def answer(report: ReadinessReport, language: Language = ENGLISH) -> str:
    """The answer in a sentence or two."""
    if report.ready:
        return language(N_("Everything asked for is there."))
    if report.feasible is None:
        sentence = N_("Not ready yet. At the usual pace everything can be there by {earliest}.")
    elif report.feasible:
        sentence = N_("Not ready yet. At the usual pace everything can be there by {earliest}, before {deadline}.")
    else:
        sentence = N_(
            "Not ready yet, and at the usual pace not before {earliest}, after {deadline}: ask the school now."
        )
    earliest = max((gap.earliest for gap in report.gaps), default=report.on)
    shown = {"earliest": day_text(earliest, language.locale), "deadline": day_or_nothing(report.deadline, language)}
    return language(sentence, **shown)


def waiting_on(report: ReadinessReport, language: Language = ENGLISH) -> str:
    """Whom the open things wait on, with how many: `Waiting on: trainee 3, host 1.`"""
    counts = report.waiting_on.items()
    named = [language(N_("{who} {number}"), who=language(WHO[who]), number=count) for who, count in counts]
    return language(N_("Waiting on: {who}."), who=language.listed(named)) if named else ""


def day_or_nothing(day: date | None, language: Language = ENGLISH) -> str:
    """A day as people of the language write it; empty without a day."""
    return day_text(day, language.locale) if day else ""


def plan_text(plan: tuple[PlanLine, ...], language: Language = ENGLISH) -> str:
    """The least still to do, in a row."""
    lines = [
        language(PLAN[line.code], minutes=hours(line.minutes, language), titles=language.listed(line.titles))
        for line in plan
    ]
    return language.listed(lines) or language(N_("see the hours page"))


def _fill(sentences: Mapping[str, str], code: str, values: Mapping, language: Language) -> str:
    days = ("on", "ends", "again_from")
    without = code in WITHOUT_DAY and any(values.get(key, "") is None for key in days)
    sentence = WITHOUT_DAY[code] if without else sentences[code]
    shown = {key: _shown(key, value, language) for key, value in values.items()}
    return language(sentence, **shown)


def _shown(key: str, value: object, language: Language) -> object:
    if key in ("minutes", "credited", "needed", "further", "pace"):
        return hours(value, language)
    if key == "plan":
        return plan_text(value, language)
    if key == "parts":
        return language.listed(value) or language(N_("the whole practical"))
    return day_text(value, language.locale) if isinstance(value, date) else value
