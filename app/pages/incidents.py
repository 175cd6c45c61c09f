"""Incidents and near misses: reported by anybody of the school, read by directors and by whoever reported."""

import uuid

from fastapi.responses import Response

from app.permissions import DIRECTOR
from app.queries.incidents import incidents_for, machines_out, one_incident
from app.use_cases.reporting_incidents import close_incident, let_back, report_incident
from app.web.door import Pages
from app.web.typed import typed_day
from app.web.visit import Here, Visit
from app.wording.incidents import DEGREES, DURING, FIRST
from assessments.incidents.report import Report, machine_names, report_faults
from assessments.practicals.exam_rooms import room_name
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

pages = Pages()


@pages.get("/incidents", may="report incidents")
def incidents(visit: Here) -> Response:
    seen = (visit.person.id, DIRECTOR in visit.roles, visit.school.time_zone, visit.language)
    with visit.store.reading(visit.school_id) as work:
        lines, out = incidents_for(work, *seen), machines_out(work)
    return visit.show("incidents/incidents.html", lines=lines, out=out, directs=DIRECTOR in visit.roles)


@pages.get("/incidents/new", may="report incidents")
def form(visit: Here) -> Response:
    """The form; an exam's page names the exam in its link."""
    return _form(visit, visit.request.query_params.get("exam", ""), [], 200)


@pages.post("/incidents/new", may="report incidents")
def report(visit: Here) -> Response:
    try:
        made, exam = _read(visit), visit.typed("exam")
        report_incident(visit.store, visit.asker, visit.typed("id"), made, exam, visit.settings.public_address)
    except RefusedError as refusal:
        return _form(visit, visit.typed("exam"), visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go("/incidents", visit.say(N_("Reported. The directors are told by mail.")))


@pages.get("/incidents/{incident_id}", may="report incidents")
def one(visit: Here, incident_id: str) -> Response:
    return _show(visit, incident_id, [], 200)


@pages.post("/incidents/{incident_id}/closed", may="answer incidents")
def close(visit: Here, incident_id: str) -> Response:
    try:
        close_incident(visit.store, visit.asker, incident_id, visit.typed("words"))
    except RefusedError as refusal:
        return _show(visit, incident_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/incidents/{incident_id}", visit.say(N_("Closed. What came of it is on record.")))


@pages.post("/incidents/{incident_id}/back", may="answer incidents")
def back(visit: Here, incident_id: str) -> Response:
    try:
        let_back(visit.store, visit.asker, incident_id, visit.typed("machine"), visit.typed("back-words"))
    except RefusedError as refusal:
        return _show(visit, incident_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/incidents/{incident_id}", visit.say(N_("In use again.")))


def _read(visit: Visit) -> Report:
    """What was typed; refuses a day that is none, with everything else that is missing."""
    faults: list[Fault] = []
    day = typed_day(visit.typed("day"), "day", N_("choose the day"), faults)
    typed = {name: visit.typed(name) for name in ("degree", "during", "place", "words", "told", "changed")}
    made = Report(day=day or visit.today, machines=machine_names(visit.typed("machines")), **typed)
    if faults:
        raise RefusedError([*faults, *report_faults(made, visit.today)])
    return made


def _form(visit: Visit, exam: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        place = ""
        found = work.exams.by_id(exam) if exam else None
        if found and (DIRECTOR in visit.roles or visit.person.id in work.exams.seats(exam)):
            place = room_name(found.room)
    return visit.show(
        "incidents/form.html", status, exam=exam, place=place, faults=faults, typed=visit.typed, first=FIRST,
        id=visit.typed("id") or str(uuid.uuid4()), today=visit.today.isoformat(),
        degrees=[(code, visit.say(text)) for code, text in DEGREES.items()],
        during=[(code, visit.say(text)) for code, text in DURING.items()],
    )  # fmt: skip


def _show(visit: Visit, incident_id: str, faults: list, status: int) -> Response:
    directs = DIRECTOR in visit.roles
    with visit.store.reading(visit.school_id) as work:
        kept = work.incidents.by_id(incident_id)
        if kept is None or not (directs or kept.told_by == visit.person.id):
            raise NotFoundError
        shown = one_incident(work, kept, visit.school.time_zone, visit.language)
    return visit.show(
        "incidents/incident.html", status, one=shown, directs=directs, faults=faults, typed=visit.typed, first=FIRST
    )
