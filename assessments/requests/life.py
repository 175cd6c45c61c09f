"""The life of a request: asked, answered with a reason, appealed against once, ended by somebody who did not answer first."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from curriculum.faults import N_, Fault

Kind = Literal["extension", "leave", "adjustment", "prior-learning", "waiver", "complaint", "other"]
KINDS: tuple[Kind, ...] = Kind.__args__
Step = Literal["granted", "in-part", "refused", "withdrawn", "appealed"]
ANSWERS: tuple[Step, ...] = ("granted", "in-part", "refused")
State = Literal["open", "granted", "in-part", "refused", "withdrawn", "appealed"]
# How long somebody may appeal against an answer, and how long the school takes for one before the page says it is late.
APPEAL_DAYS, ANSWER_DAYS = 14, 14
OVER = N_("this request has ended")
NOT_NOW = N_("that can't be done with this request as it stands")
TOO_LATE = N_("the time to appeal ended on {day}")
SOMEBODY_ELSE = N_("an appeal is answered by somebody who did not answer before")


@dataclass(frozen=True, slots=True)
class Taken:
    """One step after the asking, by whom."""

    step: Step
    by: str
    at: datetime


def state_of(steps: Sequence[Taken]) -> State:
    """Where a request stands."""
    return steps[-1].step if steps else "open"


def is_ended(steps: Sequence[Taken]) -> bool:
    """Withdrawn, or an appeal was answered; nothing follows."""
    kinds = [one.step for one in steps]
    return "withdrawn" in kinds or ("appealed" in kinds and kinds[-1] in ANSWERS)


def waits_for_school(steps: Sequence[Taken]) -> bool:
    """Whether the school owes an answer."""
    return state_of(steps) in ("open", "appealed")


def appeal_until(steps: Sequence[Taken]) -> date | None:
    """The last day to appeal against the first answer; None where there is nothing to appeal against."""
    if is_ended(steps) or state_of(steps) not in ANSWERS or state_of(steps) == "granted":
        return None
    return (steps[-1].at + timedelta(days=APPEAL_DAYS)).date()


def answer_due(asked_at: datetime, steps: Sequence[Taken]) -> date | None:
    """The day by which the school answers what waits for it."""
    since = steps[-1].at if steps else asked_at
    return (since + timedelta(days=ANSWER_DAYS)).date() if waits_for_school(steps) else None


def step_faults(steps: Sequence[Taken], new: Taken, today: date) -> tuple[Fault, ...]:
    """Why a step can't follow those that were taken; none if it can."""
    if is_ended(steps):
        return (Fault("ended", OVER),)
    if new.step in ANSWERS:
        if not waits_for_school(steps):
            return (Fault("not-now", NOT_NOW),)
        before = {one.by for one in steps if one.step in ANSWERS}
        return (Fault("somebody-else", SOMEBODY_ELSE, field="answer"),) if new.by in before else ()
    if new.step == "withdrawn":
        return () if waits_for_school(steps) else (Fault("not-now", NOT_NOW),)
    until = appeal_until(steps)
    if until is None:
        return (Fault("not-now", NOT_NOW),)
    return (Fault("too-late", TOO_LATE, {"day": until.isoformat()}),) if today > until else ()
