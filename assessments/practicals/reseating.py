"""The rest of a day seated again: same panels, other times and rooms, in the order they had."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy

from assessments.practicals.drawing_solver import INFINITE, solve
from assessments.practicals.exam_rooms import same_room
from curriculum.faults import N_, Fault, RefusedError

DAY_MINUTES = 24 * 60
# Keeping the room counts less than any order of times.
OTHER_ROOM = 0.01
EARLIER_FIRST = 0.2
# Absolute: below what another room costs, so the least is found, not only nearly.
STOP = 0.005


@dataclass(frozen=True, slots=True)
class Held:
    """An exam of the day; minutes are since midnight. `last` puts it behind all others, as when its client is not there."""

    id: str
    starts: int
    minutes: int
    room: str
    people: tuple[str, ...]
    last: bool = False


@dataclass(frozen=True, slots=True)
class Moved:
    """Where an exam is from now on."""

    id: str
    starts: int
    room: str


Place = tuple[Held, int, str]


def reseat(
    rest: Sequence[Held], going_on: Sequence[Held], begins: Sequence[int], rooms: Sequence[str]
) -> tuple[Moved, ...]:
    """Times and rooms for `rest`, as early as can be and in their order, beside what is still `going_on`.

    `people` are all who have to be there, examiners and candidate; nobody and no room is taken twice at once.
    `RefusedError` when the times and rooms do not hold them all, with how many they would hold.
    """
    order = {one.id: place for place, one in enumerate(sorted(rest, key=lambda one: (one.last, one.starts, one.id)))}
    places = [
        (one, at, room)
        for one in rest
        for at in begins
        if at + one.minutes <= DAY_MINUTES
        for room in rooms
        if not any(_meet(one, at, room, other) for other in going_on)
    ]
    rows = [("exam", 1, 1, dict.fromkeys(own, 1.0)) for own in _places_by_exam(rest, places)]
    rows += [("taken", -INFINITE, 1, dict.fromkeys(here, 1.0)) for here in _meeting(places)]
    slot = {at: number for number, at in enumerate(begins)}
    costs = numpy.array([_cost(*place, slot, order, len(rest)) for place in places]) if places else numpy.zeros(0)
    best = solve(costs, rows, stop=STOP) if places and all(row[3] for row in rows[: len(rest)]) else None
    if best is None:
        sentence = N_("{exams} exams do not fit: the times and rooms hold {places}, and nobody can be in two at once")
        values = {"exams": len(rest), "places": len(begins) * len(rooms)}
        raise RefusedError([Fault("no-room-left", sentence, values, "number")])
    found = {one.id: Moved(one.id, at, room) for n, (one, at, room) in enumerate(places) if best.values[n] > 0.5}
    return tuple(found[one.id] for one in rest)


def _cost(one: Held, at: int, room: str, slot: Mapping[int, int], order: Mapping[str, int], count: int) -> float:
    weight = 1 + EARLIER_FIRST * (count - order[one.id]) / count
    return slot[at] * weight + (0 if same_room(room, one.room) else OTHER_ROOM)


def _places_by_exam(rest: Sequence[Held], places: Sequence[Place]) -> list[list[int]]:
    own: dict[str, list[int]] = {one.id: [] for one in rest}
    for number, (one, _, _) in enumerate(places):
        own[one.id].append(number)
    return list(own.values())


def _meeting(places: Sequence[Place]) -> list[list[int]]:
    """The places of a room, and of a person, at the same time; begins are far enough apart for the longest exam."""
    found: dict[tuple, list[int]] = {}
    for number, (one, at, room) in enumerate(places):
        for taken in (("room", room), *(("person", who) for who in one.people)):
            found.setdefault((at, *taken), []).append(number)
    return list(found.values())


def _meet(one: Held, at: int, room: str, other: Held) -> bool:
    together = at < other.starts + other.minutes and other.starts < at + one.minutes
    return together and (same_room(room, other.room) or bool(set(one.people) & set(other.people)))
