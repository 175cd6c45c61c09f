"""What trainees ask, for the school: those that wait first, and one with how the school answered its kind before."""

from fastapi.responses import Response

from app.queries.requests import RequestPages
from app.use_cases.requests import answer_request
from app.web.door import Pages
from app.web.typed import typed_text, whole_number
from app.web.visit import Here, Visit
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/requests", may="answer requests")
def requests(visit: Here) -> Response:
    with visit.store.reading(visit.school_id) as work:
        lines = RequestPages(work, visit.school.time_zone, visit.today, visit.language).lines(work.requests.all())
    waiting = [one for one in reversed(lines) if one.waits]
    return visit.show("requests/requests.html", waiting=waiting, answered=[one for one in lines if not one.waits])


@pages.get("/requests/{request_id}", may="answer requests")
def request(visit: Here, request_id: str) -> Response:
    return _show(visit, request_id, [], 200)


@pages.post("/requests/{request_id}", may="answer requests")
def answer(visit: Here, request_id: str) -> Response:
    chosen, words, known = visit.typed("answer"), typed_text(visit.form, "words"), whole_number(visit.typed("known"))
    address = visit.settings.public_address
    try:
        answer_request(visit.store, visit.asker, request_id, chosen, words, known, address)
    except RefusedError as refusal:
        return _show(visit, request_id, visit.faults(refusal.faults), 422)
    return visit.go(visit.path, visit.say(N_("Answered. The trainee is told by mail.")))


def _show(visit: Visit, request_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        found = work.requests.by_id(request_id)
        if found is None:
            raise NotFoundError
        pages_of = RequestPages(work, visit.school.time_zone, visit.today, visit.language)
        shown = pages_of.shown(found, with_earlier=True)
    return visit.show("requests/request.html", status, shown=shown, faults=faults)
