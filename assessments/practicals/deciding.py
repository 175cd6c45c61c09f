"""Who may decide, what a decision must hold, and which exams a further examiner also marks."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Literal

from assessments.practicals.result import Recommendation, Result
from assessments.practicals.specification import Practical, SecondMarkingSample
from curriculum.faults import N_, Fault


class Outcome(StrEnum):
    """What is decided; `void` and `not-completed` use no attempt."""

    PASS = "pass"
    REFER = "refer"
    FAIL = "fail"
    VOID = "void"
    NOT_COMPLETED = "not-completed"


VoidCause = Literal["broken-machine", "illness", "leaked-list", "lost-record", "no-client", "set-in-error"]
VOID_CAUSES: tuple[VoidCause, ...] = (
    "broken-machine",
    "illness",
    "leaked-list",
    "lost-record",
    "no-client",
    "set-in-error",
)
TieKind = Literal["taught", "hosted", "examined", "related"]


@dataclass(frozen=True, slots=True)
class Tie:
    """How a person is tied to a candidate; `last` is the last day of it, None while it lasts."""

    person: str
    candidate: str
    kind: TieKind
    last: date | None = None


@dataclass(frozen=True, slots=True)
class Waiver:
    """A director lets a tied person act all the same; it stands beside the decision for everyone to see."""

    by: str
    person: str
    candidate: str
    reason: str


@dataclass(frozen=True, slots=True)
class Decision:
    """What the decider decided for one exam, with the reason; `refer_parts` are ids of parts.

    `refer_tasks` are (part, exercise) where only some tasks of a part are taken again, `again_from` the first day of a
    further attempt; `extra_minutes` are to be done on top of the programme, on what `extra_on` says.
    """

    exam: str
    candidate: str
    decider: str
    outcome: Outcome
    reason: str
    on: date
    refer_parts: tuple[str, ...] = ()
    void_cause: VoidCause | None = None
    waiver: Waiver | None = None
    refer_tasks: tuple[tuple[str, str], ...] = ()
    again_from: date | None = None
    extra_minutes: int = 0
    extra_on: str = ""

    @property
    def uses_attempt(self) -> bool:
        return self.outcome not in (Outcome.VOID, Outcome.NOT_COMPLETED)


def tie_faults(
    person: str,
    candidate: str,
    ties: tuple[Tie, ...],
    on: date,
    months: int,
    waiver: Waiver | None = None,
) -> tuple[Fault, ...]:
    """Why this person may not decide on (or examine) this candidate; empty when nothing stands against it.

    A tie counts for `months` after its last day. A waiver with a reason lifts ties, never one's own exam.
    """
    if person == candidate:
        return (Fault("own-exam", N_("nobody decides on their own exam"), field="decider"),)
    if waiver and (waiver.person, waiver.candidate) == (person, candidate):
        reason = Fault("no-reason", N_("a waiver needs a reason"), field="waiver")
        return () if waiver.reason.strip() else (reason,)
    kinds = sorted({tie.kind for tie in ties if _stands(tie, person, candidate, on, months)})
    return tuple(Fault(f"tied-{kind}", TIED[kind], {"months": months}, "decider") for kind in kinds)


TIED = {
    "taught": N_("taught this candidate within {months} months; another person decides, or a waiver with a reason"),
    "hosted": N_("hosted this candidate within {months} months; another person decides, or a waiver with a reason"),
    "examined": N_("examined this candidate within {months} months; another person decides, or a waiver with a reason"),
    "related": N_("is related to this candidate; another person decides, or a waiver with a reason"),
}


def decision_faults(
    practical: Practical, result: Result, decision: Decision, ties: tuple[Tie, ...]
) -> tuple[Fault, ...]:
    """Everything that keeps this decision from standing."""
    person, candidate = decision.decider, decision.candidate
    faults = list(
        tie_faults(
            person,
            candidate,
            ties,
            decision.on,
            practical.months_apart,
            decision.waiver,
        )
    )
    for rule in RULES:
        faults.extend(rule(practical, result, decision))
    return tuple(faults)


def reason_is_given(practical: Practical, result: Result, decision: Decision) -> Iterator[Fault]:
    """Every decision has a reason."""
    if not decision.reason.strip():
        yield Fault("no-reason", N_("a decision needs its reason"), field="reason")


def nothing_is_open(practical: Practical, result: Result, decision: Decision) -> Iterator[Fault]:
    """Pass, refer and fail wait until sheets are in, examiners have talked and a second marking is done."""
    waiting = (
        Recommendation.WAITING,
        Recommendation.TALK,
        Recommendation.SECOND_MARKING,
    )
    if decision.uses_attempt and result.recommendation in waiting:
        sentence = N_("first comes: {next}")
        yield Fault("still-open", sentence, {"next": result.recommendation.value}, "outcome")


def critical_fault_never_passes(practical: Practical, result: Result, decision: Decision) -> Iterator[Fault]:
    """A confirmed critical fault is not a pass, whatever the score and whoever decides."""
    confirmed = [step.values["fault"] for step in result.steps if step.code == "critical-confirmed"]
    if confirmed and decision.outcome is Outcome.PASS:
        sentence = N_("critical fault {faults} is confirmed; this can't be a pass")
        yield Fault("critical-confirmed", sentence, {"faults": ", ".join(confirmed)}, "outcome")


def too_little_seen_never_passes(practical: Practical, result: Result, decision: Decision) -> Iterator[Fault]:
    """What was not completed can't be passed."""
    if result.recommendation is Recommendation.NOT_COMPLETED and decision.outcome is Outcome.PASS:
        yield Fault("not-completed", N_("too much was left out for a pass"), field="outcome")


def referral_names_parts(practical: Practical, result: Result, decision: Decision) -> Iterator[Fault]:
    """A referral names parts of this practical; nothing else does."""
    known = {part.id for part in practical.parts}
    if (decision.outcome is Outcome.REFER) != bool(decision.refer_parts):
        yield Fault(
            "refer-parts",
            N_("a referral, and only a referral, names its parts"),
            field="refer_parts",
        )
    for unknown in sorted(set(decision.refer_parts) - known):
        yield Fault(
            "no-such-part",
            N_("{part} is not a part of this practical"),
            {"part": unknown},
            "refer_parts",
        )


def what_follows_fits(practical: Practical, result: Result, decision: Decision) -> Iterator[Fault]:
    """Tasks lie in referred parts; only a further attempt has a first day, on or after the decision, and extra hours."""
    if {part for part, _ in decision.refer_tasks} - set(decision.refer_parts):
        yield Fault("refer-tasks", N_("tasks are named only of parts that are taken again"), field="refer_tasks")
    further = decision.outcome in (Outcome.REFER, Outcome.FAIL)
    if decision.again_from and (not further or decision.again_from < decision.on):
        sentence = N_("only a referral or a fail has a day from which it is taken again, not before today")
        yield Fault("again-from", sentence, field="again_from")
    if bool(decision.extra_minutes) != bool(decision.extra_on.strip()):
        yield Fault("extra-hours", N_("say both how many hours and what they are on"), field="extra_hours")
    elif decision.extra_minutes and not further:
        yield Fault("extra-hours", N_("only a referral or a fail sets extra hours"), field="extra_hours")


def void_names_its_cause(practical: Practical, result: Result, decision: Decision) -> Iterator[Fault]:
    """A void exam, and only a void exam, has a cause."""
    if (decision.outcome is Outcome.VOID) != (decision.void_cause is not None):
        causes = ", ".join(VOID_CAUSES)
        yield Fault(
            "void-cause",
            N_("a void exam has one cause: {causes}"),
            {"causes": causes},
            "void_cause",
        )


RULES = (
    reason_is_given,
    nothing_is_open,
    critical_fault_never_passes,
    too_little_seen_never_passes,
    referral_names_parts,
    what_follows_fits,
    void_names_its_cause,
)


def sample_reasons(sample: SecondMarkingSample, result: Result, new_examiner: bool, lot: float) -> tuple[str, ...]:
    """Why a further examiner also marks this exam: `fail`, `inside-band`, `new-examiner`, `random`.

    `lot` is this exam's number from 0 up to 1, drawn by the caller.
    """
    codes = {step.code for step in result.steps}
    found = {
        "fail": sample.fails and result.recommendation in (Recommendation.FAIL, Recommendation.REFER),
        "inside-band": sample.inside_band and bool({"too-close", "total-inside-band"} & codes),
        "new-examiner": sample.new_examiners and new_examiner,
        "random": lot * 100 < sample.random,
    }
    return tuple(reason for reason, holds in found.items() if holds)


def _stands(tie: Tie, person: str, candidate: str, on: date, months: int) -> bool:
    if (tie.person, tie.candidate) != (person, candidate):
        return False
    return tie.kind == "related" or tie.last is None or _months_after(tie.last, months) > on


def _months_after(day: date, months: int) -> date:
    """The same day so many months later, or the last day of that month."""
    years, month = divmod(day.month - 1 + months, 12)
    for last in (day.day, 30, 29, 28):
        try:
            return date(day.year + years, month + 1, last)
        except ValueError:
            continue
    raise ValueError(day)
