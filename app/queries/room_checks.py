"""The rooms of a day of exams: which machines stand in them, and who signed that they were checked."""

import hashlib
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from app.files.room_checks import read_room_check
from app.queries.day_plan import exams_of_day
from app.storage.room_checks import SignedCheck
from app.storage.work import Work
from app.wording.dates import clock_text
from app.wording.languages import Language
from app.wording.room_checks import FOUND_NOTHING, LATE, SIGNED, WITHDRAWN
from assessments.practicals.exam_rooms import machines_in, room_name


@dataclass(frozen=True, slots=True)
class DayRoom:
    """One room of a day: `id` stands in its address, `first` is when its first exam begins, `signed` are sentences."""

    id: str
    name: str
    machines: tuple[str, ...]
    first: int
    first_at: str
    signed: tuple[str, ...]


def day_rooms(
    work: Work, day: date, viewer_id: str, directs: bool, zone: str, language: Language
) -> tuple[DayRoom, ...]:
    """The rooms of a day: all for a director, for an examiner those they examine in; in order of their first exam."""
    seats, found = work.exams.all_seats(), {}
    for exam in exams_of_day(work, day):
        if room_name(exam.room) and (directs or viewer_id in seats.get(exam.id, ())):
            found.setdefault(room_name(exam.room).casefold(), []).append(exam)
    names, checks = work.people.names(), work.room_checks.of_day(day)
    rooms = []
    for exams in found.values():
        name, first = room_name(exams[0].room), min(one.starts_minute for one in exams)
        machines = {one.casefold(): one for exam in exams for one in machines_in(exam.room)}
        own = [one for one in checks if one.room.casefold() == name.casefold()]
        said = tuple(_said(one, day, first, names[one.signed_by], zone, language) for one in own)
        rooms.append(
            DayRoom(room_id(name), name, tuple(machines.values()), first, clock_text(first, language.locale), said)
        )
    return tuple(sorted(rooms, key=lambda one: (one.first, one.name)))


def room_id(name: str) -> str:
    """What stands for a room in an address."""
    return hashlib.sha256(name.casefold().encode()).hexdigest()[:12]


def _said(one: SignedCheck, day: date, first: int, name: str, zone: str, language: Language) -> str:
    local = one.signed_at.astimezone(ZoneInfo(zone))
    minute = local.hour * 60 + local.minute
    out = read_room_check(one.content).withdrawn
    late = local.date() != day or minute > first
    at = clock_text(minute, language.locale)
    found = language(WITHDRAWN, machines=language.listed(list(out))) if out else language(FOUND_NOTHING)
    return f"{language(LATE if late else SIGNED, name=name, at=at)} {found}"
