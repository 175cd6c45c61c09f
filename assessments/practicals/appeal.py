"""Against an exam's decision (appeal), or about how it was held (complaint): until when, on what grounds, who decides, the end.

Other people than before decide, the way is published beforehand, and nobody is worse off for having asked but as the
rules said: ISO/IEC 17024:2012, 9.8 and 9.9 (from memory). Days and grounds are common practice.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from assessments.practicals.appeal_rules import Appeals, Direction
from assessments.practicals.deciding import Outcome
from curriculum.faults import N_, Fault

Kind = Literal["appeal", "complaint"]
KINDS: tuple[Kind, ...] = ("appeal", "complaint")
Ground = Literal["procedure", "bias", "error", "circumstance"]
GROUNDS: tuple[Ground, ...] = ("procedure", "bias", "error", "circumstance")
Step = Literal["assigned", "decided", "withdrawn"]
RANK = {Outcome.FAIL: 0, Outcome.REFER: 1, Outcome.PASS: 2}
MOST_LETTERS = 4000


@dataclass(frozen=True, slots=True)
class Filing:
    """What is filed: only an appeal has grounds."""

    kind: str
    grounds: tuple[str, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Made:
    """One step after the filing; `person` is who was assigned, else who made it."""

    step: Step
    person: str


def file_until(rules: Appeals, since: date) -> date:
    """The last day to file: counted from the decision, for a complaint before one from the exam."""
    return since + timedelta(days=rules.within_days)


def answer_by(rules: Appeals, filed: date) -> date:
    """The day by which it is decided."""
    return filed + timedelta(days=rules.answer_days)


def is_open(steps: Sequence[Made]) -> bool:
    """Neither decided nor withdrawn; both are the end."""
    return not any(one.step in ("decided", "withdrawn") for one in steps)


def assigned_to(steps: Sequence[Made]) -> str:
    """Who decides; "" until somebody is assigned."""
    return next((one.person for one in reversed(steps) if one.step == "assigned"), "")


def filing_faults(
    filing: Filing, rules: Appeals, outcome: Outcome | None, since: date, today: date, already: bool
) -> tuple[Fault, ...]:
    """Why it can't be filed. `outcome` stands, None before a decision; `already` says that this decision was appealed."""
    found = []
    if filing.kind not in KINDS:
        found.append(Fault("no-kind", N_("choose appeal or complaint"), field="kind"))
    if filing.kind == "appeal":
        found += _appeal_faults(filing, outcome, already)
    if filing.kind == "complaint" and filing.grounds:
        found.append(
            Fault("grounds", N_("only an appeal has grounds; say in words what was not right"), field="grounds")
        )
    if today < since:
        found.append(Fault("too-early", N_("this exam is still to come"), field="kind"))
    if today > file_until(rules, since):
        sentence = N_("the time for it ended on {day}")
        found.append(Fault("too-late", sentence, {"day": file_until(rules, since)}, "kind"))
    if not filing.words.strip():
        found.append(Fault("no-words", N_("say what happened, and what you ask for"), field="words"))
    if len(filing.words) > MOST_LETTERS:
        found.append(Fault("too-long", N_("keep this under {most} letters"), {"most": MOST_LETTERS}, "words"))
    return tuple(found)


def _appeal_faults(filing: Filing, outcome: Outcome | None, already: bool) -> list[Fault]:
    if outcome is None:
        return [Fault("no-decision", N_("nothing is decided yet; a complaint can be made"), field="kind")]
    if outcome is Outcome.PASS:
        return [Fault("passed", N_("this exam is passed; a complaint can be made"), field="kind")]
    if already:
        return [Fault("already", N_("this decision was appealed already; that appeal is the end of it"), field="kind")]
    if not filing.grounds or not set(filing.grounds) <= set(GROUNDS):
        return [
            Fault("no-grounds", N_("choose at least one ground; being of another opinion is none"), field="grounds")
        ]
    return []


def assigning_faults(person: str, staff: frozenset[str], involved: frozenset[str], candidate: str) -> tuple[Fault, ...]:
    """Why this person can't decide it: not of the school, the candidate, or part of the exam or its decision."""
    if person not in staff or person == candidate:
        return (Fault("no-person", N_("choose somebody of the school's staff"), field="person"),)
    if person in involved:
        sentence = N_("examined or decided before, or is tied to the candidate; somebody else decides")
        return (Fault("involved", sentence, field="person"),)
    return ()


def direction_of(before: Outcome, after: Outcome) -> Direction:
    """Where a new outcome leads; a void exam is a fresh chance and so a raise, as long as none was passed."""
    if before is after:
        return "keep"
    if before in RANK and after in RANK:
        return "raise" if RANK[after] > RANK[before] else "lower"
    return "lower" if before is Outcome.PASS or after is Outcome.FAIL else "raise"


def deciding_faults(rules: Appeals, kind: str, before: Outcome | None, after: Outcome | None) -> tuple[Fault, ...]:
    """Why it can't be decided so. A complaint changes no outcome; an appeal only as the rules said beforehand."""
    if kind == "complaint" or before is None or after is None:
        return ()
    if direction_of(before, after) in rules.may:
        return ()
    words = {"raise": N_("the rules do not let an appeal raise an outcome"),
             "keep": N_("the rules do not let an appeal keep the outcome as it is"),
             "lower": N_("the rules do not let an appeal lower an outcome")}  # fmt: skip
    return (Fault("not-allowed", words[direction_of(before, after)], field="outcome"),)
