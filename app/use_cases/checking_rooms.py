"""A room and its machines checked before the exams of a day, and signed; a fault found withdraws the machine."""

from dataclasses import dataclass
from datetime import date

from app.files.room_checks import write_room_check
from app.queries.room_checks import DayRoom
from app.storage.room_checks import SignedCheck
from app.storage.work import Store
from app.use_cases.asker import Asker
from app.use_cases.reporting_incidents import report_incident
from assessments.incidents.report import Report
from assessments.practicals.room_check import RoomCheck, room_check_faults
from curriculum.faults import N_, Fault, RefusedError

LONGEST_ID = 36
FOUND = N_("{machine}: {words}")


@dataclass(frozen=True, slots=True)
class SignRoom:
    """What was found; `id` is made by the form, so that it counts once."""

    id: str
    day: date
    room: DayRoom
    check: RoomCheck
    signed: bool


def sign_room(store: Store, asker: Asker, request: SignRoom, address: str) -> None:
    """Keep the check; every fault at once, and then nothing is kept. Machines with a fault are out of use first."""
    faults = list(room_check_faults(request.check, request.signed))
    if request.day != asker.today:
        faults.append(Fault("not-today", N_("a room is signed on the day of its exams")))
    if not 0 < len(request.id) <= LONGEST_ID:
        faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
    if faults:
        raise RefusedError(faults)
    if request.check.withdrawn:
        report_incident(store, asker, request.id, _report(asker, request), "", address)
    with store.writing(asker.school.id) as work:
        if work.room_checks.by_id(request.id) is not None:
            return
        kept = write_room_check(request.check)
        work.room_checks.add(SignedCheck(request.id, request.day, request.room.name, kept, asker.person_id, asker.now))
        body = {"room": request.room.name, "day": request.day.isoformat(), "withdrawn": list(request.check.withdrawn)}
        work.record.append("room-checked", request.id, asker.person_id, asker.now, body)
        work.commit()


def _report(asker: Asker, request: SignRoom) -> Report:
    faulty = [one for one in request.check.machines if one.is_faulty]
    words = "\n".join(asker.language(FOUND, machine=one.machine, words=one.words.strip()) for one in faulty)
    return Report("fault-found", "exam", request.day, request.room.name, words, "", "", request.check.withdrawn)
