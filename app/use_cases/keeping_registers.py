"""A tutor registers a room of a taught module: the register goes on record, and whoever was there is credited with it."""

import uuid
from zoneinfo import ZoneInfo

from app.queries.registers import KEPT, modules_of, rooms_of, subject_of
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.hours import LogHours, keep_version
from assessments.hours.attendance import KINDS, THERE, Mark, Room
from assessments.hours.log_rules import KEPT_RULES, Bounds, refusals
from assessments.hours.session import Part, Session
from curriculum.faults import N_, Fault, RefusedError


def register_room(store: Store, asker: Asker, room: Room) -> None:
    """Keep a register whole, or say everything that stands against it; `room.id` was made by the form, and is taken once."""
    with store.writing(asker.school.id) as work:
        if any(one.id == room.id for one in rooms_of(work, [room.module])):
            return
        names, faults = work.people.names(), _room_faults(work, room)
        for enrolment_id, mark in room.marks.items():
            enrolment = work.enrolments.by_id(enrolment_id)
            if enrolment is None:
                faults.append(Fault("nobody", N_("this form is damaged; open the page again")))
            elif mark.kind in THERE and not faults:
                session = _session(room, enrolment_id, mark)
                found = refusals(session, _bounds(work, asker, enrolment_id, session), KEPT_RULES)
                faults += [_named(one, names[enrolment.person_id], enrolment_id) for one in found]
        if faults:
            raise RefusedError(faults)
        for enrolment_id, mark in room.marks.items():
            if mark.kind in THERE:
                session = _session(room, enrolment_id, mark)
                logged = LogHours(enrolment_id, session, evidence=f"Register: {room.module}")
                keep_version(work, asker, logged, session, "hours-registered")
        work.record.append(KEPT, subject_of(room.module), asker.person_id, asker.now, _body(room))
        work.commit()


def _room_faults(work: Work, room: Room) -> list[Fault]:
    faults = []
    if room.module not in modules_of(work):
        faults.append(Fault("no-module", N_("choose the module"), field="module"))
    if room.end <= room.start:
        faults.append(Fault("end-before-start", N_("the end is not after the start"), field="end"))
    if not room.marks:
        faults.append(Fault("nobody-marked", N_("mark at least one trainee"), field="marks"))
    for enrolment_id, mark in room.marks.items():
        if mark.kind not in KINDS:
            faults.append(Fault("no-mark", N_("choose one from the list"), field=f"mark-{enrolment_id}"))
        elif mark.late >= max(1, room.end - room.start) or (mark.kind == "late") != (mark.late > 0):
            sentence = N_("say how many minutes late, less than the room lasted, and only of who came late")
            faults.append(Fault("no-minutes", sentence, field=f"late-{enrolment_id}"))
    return faults


def _bounds(work: Work, asker: Asker, enrolment_id: str, session: Session) -> Bounds:
    local = asker.now.astimezone(ZoneInfo(asker.school.time_zone))
    enrolled = work.enrolments.by_id(enrolment_id).enrolled_on
    others = tuple(one for one in work.ledger.of_enrolment(enrolment_id) if one.id != session.id)
    return Bounds(local.date(), local.hour * 60 + local.minute, enrolled, others)


def _session(room: Room, enrolment_id: str, mark: Mark) -> Session:
    """What a trainee is credited with: from when they came. A set may look at `late` and at the module's name."""
    start = room.start + mark.late
    more = {"module": room.module} | ({"late": "yes"} if mark.late else {})
    part = Part(room.end - start, room.activity, more=more)
    own = str(uuid.uuid5(uuid.NAMESPACE_OID, f"{room.id}/{enrolment_id}"))
    return Session(own, room.day, start, room.end, (part,), proof="registered", state="registered")


def _named(fault: Fault, name: str, enrolment_id: str) -> Fault:
    values = {"name": name, "why": fault.text()}
    return Fault(fault.code, N_("{name}: {why}"), values, f"mark-{enrolment_id}")


def _body(room: Room) -> dict[str, object]:
    marks = {key: [mark.kind, mark.late] for key, mark in room.marks.items()}
    body = {"room": room.id, "module": room.module, "day": room.day.isoformat(), "start": room.start, "end": room.end}
    return body | {"activity": room.activity, "marks": marks}
