"""Asking the school: more time, leave, an adjustment, a waiver and the like; the answers, and the way to appeal."""

import uuid

from fastapi.responses import Response

from app.queries.requests import RequestPages
from app.storage.requests import Request
from app.storage.work import Work
from app.use_cases.requests import AskSchool, ask_school, take_own_step
from app.web.door import Pages
from app.web.own_enrolment import own_enrolment
from app.web.typed import typed_day, typed_text, whole_number
from app.web.visit import Here, Visit
from app.wording.requests import KINDS
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

pages = Pages()
FIELDS = ("id", "kind", "words", "first", "last")
DONE = {"withdrawn": N_("Withdrawn."), "appealed": N_("The school has your appeal. Somebody else answers it.")}


@pages.get("/my-requests", may="ask the school")
def own(visit: Here) -> Response:
    with visit.store.reading(visit.school_id) as work:
        kept = [
            one
            for enrolment in work.enrolments.of_person(visit.person.id)
            for one in work.requests.of_enrolment(enrolment.id)
        ]
        lines = _pages_of(visit, work).lines(kept)
    return visit.show("my_requests/list.html", lines=lines)


@pages.get("/my-requests/new", may="ask the school")
def form(visit: Here) -> Response:
    typed = dict.fromkeys(FIELDS, "") | {"id": str(uuid.uuid4()), "kind": visit.request.query_params.get("kind", "")}
    return _form(visit, typed, [], 200)


@pages.post("/my-requests/new", may="ask the school")
def ask(visit: Here) -> Response:
    typed = {name: typed_text(visit.form, name) for name in FIELDS}
    unread: list[Fault] = []
    first, last = (
        typed_day(typed[name], name, N_("choose the day"), unread) if typed[name] else None
        for name in ("first", "last")
    )
    asked = AskSchool(typed["id"], typed["kind"], typed["words"], first, last)
    try:
        ask_school(visit.store, visit.asker, own_enrolment(visit).id, asked, unread)
    except RefusedError as refusal:
        return _form(visit, typed, visit.faults(refusal.faults), 422)
    return visit.go(f"/my-requests/{asked.id}", visit.say(N_("The school has it.")))


@pages.get("/my-requests/{request_id}", may="ask the school")
def one(visit: Here, request_id: str) -> Response:
    return _show(visit, request_id, [], 200)


@pages.post("/my-requests/{request_id}", may="ask the school")
def step(visit: Here, request_id: str) -> Response:
    """Withdraw it, or appeal."""
    chosen, words, known = visit.typed("step"), typed_text(visit.form, "words"), whole_number(visit.typed("known"))
    try:
        take_own_step(visit.store, visit.asker, request_id, chosen, words, known)
    except RefusedError as refusal:
        return _show(visit, request_id, visit.faults(refusal.faults), 422)
    return visit.go(visit.path, visit.say(DONE[chosen]))


def _pages_of(visit: Visit, work: Work) -> RequestPages:
    return RequestPages(work, visit.school.time_zone, visit.today, visit.language)


def _own(visit: Visit, work: Work, request_id: str) -> Request:
    found = work.requests.by_id(request_id)
    if found is None or work.enrolments.by_id(found.enrolment_id).person_id != visit.person.id:
        raise NotFoundError
    return found


def _show(visit: Visit, request_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        shown = _pages_of(visit, work).shown(_own(visit, work, request_id), with_earlier=False)
    return visit.show("my_requests/request.html", status, shown=shown, faults=faults)


def _form(visit: Visit, typed: dict[str, str], faults: list, status: int) -> Response:
    own_enrolment(visit)
    kinds = [(name, visit.say(words)) for name, words in KINDS.items()]
    return visit.show("my_requests/form.html", status, typed=typed, kinds=kinds, faults=faults)
