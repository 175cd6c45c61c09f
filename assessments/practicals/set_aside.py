"""An exam noted as void or not completed before anything is decided: what must be said, and what it then keeps open."""

from dataclasses import dataclass
from datetime import date

from assessments.practicals.deciding import VOID_CAUSES, Outcome
from curriculum.faults import N_, Fault

ASIDE = (Outcome.VOID, Outcome.NOT_COMPLETED)
MOST_LETTERS = 2000


@dataclass(frozen=True, slots=True)
class SetAside:
    """What a director notes: `void` with its cause, or `not-completed` with none; `reason` in words."""

    outcome: Outcome
    reason: str
    cause: str = ""


def set_aside_faults(noted: SetAside, day: date, today: date) -> tuple[Fault, ...]:
    """Everything that keeps it from being noted of an exam on `day`; empty when it can be."""
    found = []
    if noted.outcome not in ASIDE:
        found.append(Fault("no-outcome", N_("choose void or not completed"), field="outcome"))
    if noted.outcome is Outcome.VOID and noted.cause not in VOID_CAUSES:
        found.append(Fault("no-cause", N_("choose why it is void"), field="cause"))
    if noted.outcome is Outcome.NOT_COMPLETED and noted.cause:
        found.append(Fault("cause", N_("only a void exam has a cause; say in words what happened"), field="cause"))
    if noted.outcome is Outcome.NOT_COMPLETED and day > today:
        found.append(
            Fault("too-early", N_("this exam is still to come; it can be void, not cut short"), field="outcome")
        )
    if not noted.reason.strip():
        found.append(Fault("no-reason", N_("say what happened; the candidate reads it"), field="reason"))
    if len(noted.reason) > MOST_LETTERS:
        found.append(Fault("too-long", N_("keep this under {most} letters"), {"most": MOST_LETTERS}, "reason"))
    return tuple(found)


def against_deciding(noted: SetAside, outcome: Outcome) -> tuple[Fault, ...]:
    """Why an exam that is set aside can't be decided otherwise: it is first taken back."""
    if outcome is noted.outcome:
        return ()
    sentence = N_("this exam is set aside; decide it as noted, or take the note back first")
    return (Fault("set-aside", sentence, field="outcome"),)
