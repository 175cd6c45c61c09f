"""The check of a room and its machines before the first candidate of a day: what it must say, and what it withdraws.

Springs, straps, wheels and locks, and that a machine with a fault is not used, are common practice of apparatus checks; the
maker's instructions and the rules of the place come first.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from curriculum.faults import N_, Fault

POINTS = ("springs", "straps", "wheels", "locks")
SOUND, HAS_NONE, FAULT = "sound", "none", "fault"
ANSWERS = (SOUND, HAS_NONE, FAULT)
LONGEST = 1000


@dataclass(frozen=True, slots=True)
class MachineCheck:
    """One machine: an answer to each point, and in words what was found where one is a fault."""

    machine: str
    points: Mapping[str, str]
    words: str = ""

    @property
    def is_faulty(self) -> bool:
        return FAULT in self.points.values()


@dataclass(frozen=True, slots=True)
class RoomCheck:
    """A room as it was found: its machines, and `record` of floor, space, light and warmth."""

    machines: tuple[MachineCheck, ...]
    record: str

    @property
    def withdrawn(self) -> tuple[str, ...]:
        return tuple(one.machine for one in self.machines if one.is_faulty)


def room_check_faults(check: RoomCheck, signed: bool) -> tuple[Fault, ...]:
    """Everything that is missing, at its field: `springs-1` of the first machine, `words-1`, `record`, `signed`."""
    return tuple(_faults(check, signed))


def _faults(check: RoomCheck, signed: bool) -> Iterator[Fault]:
    long = N_("keep this under {most} letters")
    for place, one in enumerate(check.machines, 1):
        for point in POINTS:
            if one.points.get(point) not in ANSWERS:
                sentence = N_("{machine}: say what you found")
                yield Fault("no-answer", sentence, {"machine": one.machine}, f"{point}-{place}")
        if one.is_faulty and not one.words.strip():
            yield Fault("no-words", N_("{machine}: say what the fault is"), {"machine": one.machine}, f"words-{place}")
        if len(one.words) > LONGEST:
            yield Fault("too-long", long, {"most": LONGEST}, f"words-{place}")
    if not check.record.strip():
        yield Fault("no-record", N_("say how you found the room"), field="record")
    if len(check.record) > LONGEST:
        yield Fault("too-long", long, {"most": LONGEST}, "record")
    if not signed:
        yield Fault("not-signed", N_("sign that you checked it yourself"), field="signed")
