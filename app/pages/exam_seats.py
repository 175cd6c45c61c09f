"""Places on panels: declined by an examiner, filled again by the director."""

from fastapi.responses import Response

from app.queries.exam_seats import panel_overview
from app.queries.sheets import examiners_exam
from app.use_cases.exams import own_exam
from app.use_cases.filling_seats import decline_seat, fill_seat
from app.web.door import Pages
from app.web.visit import Here, Visit
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/sheets/{exam_id}/decline", may="score own exams")
def declining(visit: Here, exam_id: str) -> Response:
    """Where an examiner says why they can't examine."""
    return _declining(visit, exam_id, [], 200)


@pages.post("/sheets/{exam_id}/decline", may="score own exams")
def decline(visit: Here, exam_id: str) -> Response:
    try:
        decline_seat(visit.store, visit.asker, exam_id, visit.typed("reason"))
    except RefusedError as refusal:
        return _declining(visit, exam_id, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go("/sheets", visit.say(N_("You are off this panel. The school is told why.")))


@pages.get("/exams/{exam_id}/panel", may="set exams")
def panel(visit: Here, exam_id: str) -> Response:
    """Who sits on a panel, who declined, and which places are open."""
    return _panel(visit, exam_id, [], 200)


@pages.post("/exams/{exam_id}/panel", may="set exams")
def seat(visit: Here, exam_id: str) -> Response:
    """Seat somebody in an open place."""
    try:
        fill_seat(visit.store, visit.asker, exam_id, visit.typed("examiner"), visit.typed("waiver"))
    except RefusedError as refusal:
        return _panel(visit, exam_id, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go(f"/exams/{exam_id}/panel", visit.say(N_("Seated, and told by mail.")))


def _declining(visit: Visit, exam_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam = own_exam(work, exam_id, visit.person.id)
        line = examiners_exam(work, exam, visit.person.id, visit.today, visit.language)
    return visit.show("exam_seats/decline.html", status, line=line, faults=faults, typed=visit.typed)


def _panel(visit: Visit, exam_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None:
            raise NotFoundError
        overview = panel_overview(work, exam, visit.school.time_zone, visit.language)
    return visit.show("exam_seats/panel.html", status, overview=overview, faults=faults, typed=visit.typed)
