"""Registers of taught modules: as they were kept on the record, and as a page shows them."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from app.queries.enrolled import enrolled_now
from app.queries.trainee_record import asked_for
from app.storage.record import Event
from app.storage.work import Work
from app.wording.dates import day_text, times_text
from app.wording.languages import Language
from app.wording.registers import MARKS
from assessments.hours.attendance import KINDS, Mark, Room
from curriculum.faults import N_

KEPT = "room-registered"
MOST_SHOWN = 30


@dataclass(frozen=True, slots=True)
class ShownRoom:
    """A register in words; `marks` are (how, names) pairs of those that occur."""

    day: str
    module: str
    times: str
    marks: tuple[tuple[str, str], ...]


def subject_of(module: str) -> str:
    """What the record calls the registers of a module."""
    return f"module:{module}"


def rooms_of(work: Work, modules: list[str], most: int = 10_000) -> list[Room]:
    """The registers of these modules, newest first."""
    found = work.record.newest_of([subject_of(one) for one in modules], most)
    return [_room(one) for one in found if one.kind == KEPT]


def modules_of(work: Work) -> dict[str, str]:
    """The modules that anybody's readiness or hours ask for: titles by id."""
    found: dict[str, str] = {}
    for enrolment in enrolled_now(work):
        found |= dict(asked_for(work, enrolment, "module"))
    return found


def trainees_of(work: Work) -> list[tuple[str, str]]:
    """(enrolment id, name) of everybody who may be in a room, by name."""
    names = work.people.names()
    return sorted(((one.id, names[one.person_id]) for one in enrolled_now(work)), key=lambda one: (one[1], one[0]))


def registers_shown(work: Work, modules: Mapping[str, str], language: Language) -> tuple[ShownRoom, ...]:
    """The newest registers."""
    names = work.people.names()
    people = {one.id: names[one.person_id] for one in work.enrolments.all()}
    return tuple(
        ShownRoom(
            day_text(room.day, language.locale),
            modules.get(room.module, room.module),
            times_text(room.start, room.end, language),
            tuple(_marked(room, kind, people, language) for kind in KINDS if any(one.kind == kind for one in room.marks.values())),
        )
        for room in rooms_of(work, list(modules), MOST_SHOWN)
    )  # fmt: skip


def _marked(room: Room, kind: str, people: Mapping[str, str], language: Language) -> tuple[str, str]:
    late = N_("{name} ({minutes} min)")
    shown = [
        language(late, name=people[key], minutes=mark.late) if mark.late else people[key]
        for key, mark in room.marks.items()
        if mark.kind == kind
    ]
    return language(MARKS[kind]), language.listed(shown)


def _room(event: Event) -> Room:
    body = event.content()
    marks = {key: Mark(kind, late) for key, (kind, late) in body["marks"].items()}
    day = date.fromisoformat(body["day"])
    return Room(body["room"], body["module"], day, body["start"], body["end"], body["activity"], marks)
