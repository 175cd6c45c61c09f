"""A day of exams: when they begin, and who may sit one that day."""

from dataclasses import dataclass

from assessments.practicals.panel import Exam, Examiner, is_connected, seat
from curriculum.faults import N_, Fault, RefusedError

DAY_MINUTES = 24 * 60
MOST_SLOTS = 60


@dataclass(frozen=True, slots=True)
class DayPlan:
    """A proposal: every candidate with time, room and examiners; `linked` says whether severities can be compared."""

    exams: tuple[Exam, ...]
    linked: bool


def slots(first: int, minutes: int, pause: int, number: int) -> tuple[int, ...]:
    """When exams begin (minutes since midnight): `number` of them from `first`, each followed by a pause.

    `RefusedError` when the last would end after midnight.
    """
    begins = tuple(first + place * (minutes + pause) for place in range(number))
    if begins and begins[-1] + minutes > DAY_MINUTES:
        sentence = N_("with {number} one after another the last would end after midnight")
        raise RefusedError([Fault("past-midnight", sentence, {"number": number}, "number")])
    return begins


def day_plan(
    candidates: tuple[str, ...],
    examiners: tuple[Examiner, ...],
    conflicts: frozenset[tuple[str, str]],
    begins: tuple[int, ...],
    rooms: tuple[str, ...],
    size: int,
    avoided: frozenset[tuple[str, str]] = frozenset(),
    in_a_row: int | None = None,
) -> DayPlan:
    """Seat a day (`panel.seat`): each candidate once; the faults of `seat` say which count or conflict prevents it."""
    free = {f"{begin:04d}": rooms for begin in begins}
    exams = seat(dict.fromkeys(candidates, frozenset()), examiners, conflicts, free, size, avoided, in_a_row)
    return DayPlan(exams, is_connected(exams))
