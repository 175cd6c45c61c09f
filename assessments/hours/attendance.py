"""The register of a taught module, room by room: who was there, late, missing, or made up a day; what may be missed."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from curriculum.faults import N_, Fault
from curriculum.requirements.requirement_set import ModuleRule

Kind = Literal["here", "late", "missing", "makes_up"]
KINDS: tuple[Kind, ...] = Kind.__args__
THERE: tuple[Kind, ...] = ("here", "late", "makes_up")


@dataclass(frozen=True, slots=True)
class Mark:
    """One trainee in one room; `late` are the minutes that were missed at the start."""

    kind: Kind
    late: int = 0


@dataclass(frozen=True, slots=True)
class Room:
    """One register: a module's sitting from a minute of the day to another, with a mark for each who should be there.

    `makes_up` says of a mark that the trainee was there for a day of the module missed before.
    """

    id: str
    module: str
    day: date
    start: int
    end: int
    activity: str
    marks: Mapping[str, Mark]


@dataclass(frozen=True, slots=True)
class Attendance:
    """Of one trainee and module: days there (made up ones among them), days missed, and how many were made up."""

    there: int = 0
    missed: int = 0
    made_up: int = 0

    @property
    def open(self) -> int:
        """Days missed that are not made up."""
        return max(0, self.missed - self.made_up)


def attendance(rooms: Iterable[Room], trainee: str, module: str) -> Attendance:
    """What the registers of a module say of one trainee; who has no mark in a room was not meant to be there."""
    marks = [room.marks[trainee].kind for room in rooms if room.module == module and trainee in room.marks]
    return Attendance(sum(one in THERE for one in marks), marks.count("missing"), marks.count("makes_up"))


def completion_refusals(rules: Iterable[ModuleRule], module: str, found: Attendance) -> tuple[Fault, ...]:
    """Why a module can't be put down as completed; none where the set says nothing of it."""
    faults = []
    for rule in rules:
        if rule.module != module:
            continue
        if found.missed > rule.missed_at_most:
            sentence = N_("days missed: {missed}; allowed: {most}")
            faults.append(
                Fault("missed-too-much", sentence, {"missed": found.missed, "most": rule.missed_at_most}, "module")
            )
        if found.open:
            sentence = N_("days missed and not made up yet: {open}")
            faults.append(Fault("not-made-up", sentence, {"open": found.open}, "module"))
    return tuple(faults)
