"""What a report of an incident or a near miss must say, and which machines it keeps out of use.

That a fault found withdraws the machine until somebody says why it can be used again is common practice of apparatus
checks. It stands beside the law and the rules of the place, which come first.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Literal

from curriculum.faults import N_, Fault

Degree = Literal["near-miss", "incident", "fault-found"]
DEGREES: tuple[Degree, ...] = ("near-miss", "incident", "fault-found")
During = Literal["exam", "lesson", "practice", "other"]
DURING: tuple[During, ...] = ("exam", "lesson", "practice", "other")
MOST_LETTERS, MOST_MACHINES, LONGEST_NAME = 4000, 12, 60


@dataclass(frozen=True, slots=True)
class Report:
    """`told` says who was told, `changed` what was withdrawn or changed; `machines` are out of use from now on."""

    degree: str
    during: str
    day: date
    place: str
    words: str
    told: str
    changed: str
    machines: tuple[str, ...] = ()


def report_faults(report: Report, today: date) -> tuple[Fault, ...]:
    """Everything that is missing, at its field. Who was told may be nobody after a near miss, never after an incident."""
    found = []
    if report.degree not in DEGREES:
        found.append(Fault("no-degree", N_("choose what it was"), field="degree"))
    if report.during not in DURING:
        found.append(Fault("no-during", N_("choose during what"), field="during"))
    if report.day > today:
        found.append(Fault("in-future", N_("this day is still to come"), field="day"))
    if not report.words.strip():
        found.append(Fault("no-words", N_("say what happened"), field="words"))
    if report.degree == "incident" and not report.told.strip():
        found.append(
            Fault("nobody-told", N_("say who was told, and when; if nobody was yet, tell somebody now"), field="told")
        )
    if not report.changed.strip() and not report.machines:
        found.append(
            Fault(
                "nothing-changed", N_("say what was withdrawn or changed, or that nothing was and why"), field="changed"
            )
        )
    found += _too_long(report)
    return tuple(found)


def _too_long(report: Report) -> list[Fault]:
    sentence = N_("keep this under {most} letters")
    found = [
        Fault("too-long", sentence, {"most": MOST_LETTERS}, name)
        for name in ("words", "told", "changed", "place")
        if len(getattr(report, name)) > MOST_LETTERS
    ]
    if len(report.machines) > MOST_MACHINES or any(len(one) > LONGEST_NAME for one in report.machines):
        values = {"most": MOST_MACHINES, "letters": LONGEST_NAME}
        found.append(
            Fault("machines", N_("at most {most} machines, each by a name under {letters} letters"), values, "machines")
        )
    return found


def machine_names(typed: str) -> tuple[str, ...]:
    """Names as they were typed, between commas; each once, whatever its capitals."""
    names = (" ".join(one.split()) for one in typed.replace("\n", ",").split(","))
    return tuple({name.casefold(): name for name in names if name}.values())


@dataclass(frozen=True, slots=True)
class Moved:
    """A machine out of use, or back in use, by an incident's id; in the order in which it happened."""

    machine: str
    incident: str
    back: bool


def out_of_use(moves: Iterable[Moved]) -> dict[str, tuple[str, ...]]:
    """The machines that are out of use, and the incidents that keep them so: each has to let it back by itself."""
    held: dict[str, tuple[str, dict[str, None]]] = {}
    for one in moves:
        name, incidents = held.setdefault(one.machine.casefold(), (one.machine, {}))
        if one.back:
            incidents.pop(one.incident, None)
        else:
            incidents[one.incident] = None
    return {name: tuple(incidents) for name, incidents in held.values() if incidents}


def withdrawn_in(machines: Iterable[str], withdrawn: Iterable[str]) -> tuple[str, ...]:
    """Those of a room's machines that are out of use."""
    out = {name.casefold() for name in withdrawn}
    return tuple(name for name in machines if name.casefold() in out)
