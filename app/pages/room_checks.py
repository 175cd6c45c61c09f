"""Before the first candidate: rooms and machines checked and signed."""

import uuid
from datetime import date

from fastapi.responses import Response

from app.permissions import DIRECTOR
from app.queries.incidents import machines_out
from app.queries.room_checks import DayRoom, day_rooms
from app.use_cases.checking_rooms import SignRoom, sign_room
from app.web.door import Pages
from app.web.visit import Here, Visit
from app.wording.dates import long_day
from app.wording.room_checks import ANSWERS, POINTS
from assessments.incidents.report import withdrawn_in
from assessments.practicals.room_check import MachineCheck, RoomCheck
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/room-checks/{day}", may="check rooms")
def rooms(visit: Here, day: str) -> Response:
    """The rooms of a day, and which are signed."""
    rooms = _rooms(visit, day)
    with visit.store.reading(visit.school_id) as work:
        out = machines_out(work)
    lines = [(one, visit.language.listed(list(withdrawn_in(one.machines, out)))) for one in rooms]
    return visit.show("room_checks/rooms.html", lines=lines, day=day, title=_title(visit, day))


@pages.get("/room-checks/{day}/{room_id}", may="check rooms")
def form(visit: Here, day: str, room_id: str) -> Response:
    return _form(visit, day, _room(visit, day, room_id), str(uuid.uuid4()), [], 200)


@pages.post("/room-checks/{day}/{room_id}", may="check rooms")
def sign(visit: Here, day: str, room_id: str) -> Response:
    """Keep what was found; the form as typed, with every reason, if it can't be."""
    room = _room(visit, day, room_id)
    check = RoomCheck(
        tuple(_typed(visit, place, one) for place, one in enumerate(room.machines, 1)), visit.typed("record").strip()
    )
    request = SignRoom(visit.typed("id"), date.fromisoformat(day), room, check, visit.typed("signed") == "yes")
    try:
        sign_room(visit.store, visit.asker, request, visit.settings.public_address)
    except RefusedError as refusal:
        return _form(visit, day, room, visit.typed("id"), visit.faults(refusal.faults), 422)
    if check.withdrawn:
        visit.ask("mail")
        machines = visit.language.listed(list(check.withdrawn))
        return visit.go(f"/room-checks/{day}", visit.say(WITHDREW, machines=machines))
    return visit.go(f"/room-checks/{day}", visit.say(N_("Signed.")))


WITHDREW = N_("Signed. Out of use from now on, and the directors are told: {machines}. Hang a note on it.")


def _typed(visit: Visit, place: int, machine: str) -> MachineCheck:
    points = {point: visit.typed(f"{point}-{place}") for point in POINTS}
    return MachineCheck(machine, points, visit.typed(f"words-{place}").strip())


def _form(visit: Visit, day: str, room: DayRoom, id: str, faults: list, status: int) -> Response:
    points = [(code, visit.say(words)) for code, words in POINTS.items()]
    answers = [(code, visit.say(words)) for code, words in ANSWERS.items()]
    return visit.show(
        "room_checks/check.html", status, room=room, day=day, id=id, points=points, answers=answers, faults=faults,
        typed=visit.typed, title=_title(visit, day),
    )  # fmt: skip


def _title(visit: Visit, day: str) -> str:
    return long_day(date.fromisoformat(day), visit.locale)


def _rooms(visit: Visit, day: str) -> tuple[DayRoom, ...]:
    try:
        found = date.fromisoformat(day)
    except ValueError as error:
        raise NotFoundError from error
    directs = DIRECTOR in visit.roles
    with visit.store.reading(visit.school_id) as work:
        return day_rooms(work, found, visit.person.id, directs, visit.school.time_zone, visit.language)


def _room(visit: Visit, day: str, room_id: str) -> DayRoom:
    for one in _rooms(visit, day):
        if one.id == room_id:
            return one
    raise NotFoundError
