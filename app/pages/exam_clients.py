"""The client of an exam: told by the director before and by an examiner on the day; the list is screened against them."""

from fastapi.responses import Response

from app.queries.exam_clients import client_overview, clients_of
from app.storage.exams import Exam
from app.storage.work import Work
from app.use_cases.exam_clients import forget_intake, tell_client
from app.use_cases.exams import own_exam
from app.web.client_form import ClientForm
from app.web.door import Pages
from app.web.visit import Here, Visit
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/exams/{exam_id}/client", may="set exams")
def client(visit: Here, exam_id: str) -> Response:
    return _client(visit, exam_id, "/exams", [], 200)


@pages.post("/exams/{exam_id}/client", may="set exams")
def tell(visit: Here, exam_id: str) -> Response:
    return _tell(visit, exam_id, "/exams")


@pages.post("/exams/{exam_id}/client/forget", may="set exams")
def forget(visit: Here, exam_id: str) -> Response:
    """Erase the cautions once the exam is decided."""
    forget_intake(visit.store, visit.asker, exam_id)
    return visit.go(f"/exams/{exam_id}/client", visit.say(N_("The intake is erased.")))


@pages.get("/sheets/{exam_id}/client", may="score own exams")
def clients_on_the_day(visit: Here, exam_id: str) -> Response:
    """The same for an examiner of the exam."""
    return _client(visit, exam_id, "/sheets", [], 200)


@pages.post("/sheets/{exam_id}/client", may="score own exams")
def tell_on_the_day(visit: Here, exam_id: str) -> Response:
    with visit.store.reading(visit.school_id) as work:
        own_exam(work, exam_id, visit.person.id)
    return _tell(visit, exam_id, "/sheets")


def _tell(visit: Visit, exam_id: str, place: str) -> Response:
    form = ClientForm.typed(visit.form)
    try:
        told = tell_client(visit.store, visit.asker, form.request(exam_id, visit.typed("known")))
    except RefusedError as refusal:
        return _client(visit, exam_id, place, visit.faults(refusal.faults), 422, form)
    number = len(told.swaps)
    said = visit.language.ngettext("Kept. {number} task is swapped.", "Kept. {number} tasks are swapped.", number)
    return visit.go(f"{place}/{exam_id}/client", said)


def _client(
    visit: Visit, exam_id: str, place: str, faults: list, status: int, form: ClientForm | None = None
) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam = _found(work, visit, exam_id, place)
        overview = client_overview(work, exam, visit.person.id, visit.today, visit.language)
        form = form or ClientForm.of(clients_of(work, exam_id))
    values = {"overview": overview, "form": form, "faults": faults, "place": place}
    return visit.show("exam_clients/client.html", status, **values)


def _found(work: Work, visit: Visit, exam_id: str, place: str) -> Exam:
    if place == "/sheets":
        return own_exam(work, exam_id, visit.person.id)
    exam = work.exams.by_id(exam_id)
    if exam is None:
        raise NotFoundError
    return exam
