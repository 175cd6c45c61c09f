"""What changed in a trainee's log and credit, in sentences."""

from app.wording.asides import AsideTexts
from app.wording.dates import day_text
from app.wording.hours import hours
from app.wording.languages import Language
from app.wording.requirements import Titles
from app.wording.sessions import STATES, parts_text
from assessments.hours.moves import Move
from assessments.hours.session import Session
from assessments.hours.standing import SetAside
from curriculum.faults import N_
from curriculum.requirements.requirement_set import RequirementSet


def happened_text(then: Session | None, now: Session, language: Language) -> str:
    """What happened to one session: put down, corrected or decided; and where it stands."""
    values = {
        "day": day_text(now.day, language.locale),
        "what": parts_text(now.parts, language),
        "time": hours(now.minutes, language),
        "state": language(STATES[now.state][0]),
    }
    if then is None:
        return language(N_("{day}, {what}, {time}: put down. {state}."), **values)
    values["before"] = language(STATES[then.state][0])
    if then.version != now.version:
        return language(N_("{day}, {what}, {time}: changed, {before} before. {state}."), **values)
    return language(N_("{day}, {what}, {time}: {before} before. {state}."), **values)


def move_text(move: Move, day: str, requirements: RequirementSet, language: Language, titles: Titles) -> str:
    """Which minutes of a session of `day` moved from where to where, and why."""
    names = {one.id: one.name for one in requirements.categories}
    values = {"time": hours(move.minutes, language), "day": day, "of": names.get(move.of), "to": names.get(move.to)}
    if move.why == "enough":
        return language(
            N_("{time} of {day} count in {to} now instead of {of}, which has all it asks for without them."), **values
        )
    if move.why == "needed":
        return language(N_("{time} of {day} count in {to} now instead of {of}: so less is left to do."), **values)
    aside = SetAside(move.entry, move.minutes, move.why, move.rule)
    values["why"] = AsideTexts(requirements, language, titles).of(aside)
    if move.to:
        return language(N_("{day} counts in {to} now. Before: {why}"), **values)
    return language(N_("{day} no longer counts in {of}. {why}"), **values)
