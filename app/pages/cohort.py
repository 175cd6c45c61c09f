"""The director's cohort, and one trainee's hours."""

import uuid

from fastapi.responses import Response

from app.queries import cohort as query
from app.queries.hours import hours_overview
from app.queries.requests import waiting_requests
from app.use_cases.standings import keep_standings
from app.use_cases.writing_to_trainees import write_to_trainees
from app.web.door import Pages
from app.web.typed import typed_text
from app.web.visit import Here, Visit
from app.wording.hours import COURSES
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/cohort", may="see the cohort")
def cohort(visit: Here) -> Response:
    """Every trainee on one line of time, worst first; with `of` those who stand so."""
    course = visit.request.query_params.get("of", "")
    course = course if course in COURSES else ""
    with visit.store.reading(visit.school_id) as work:
        overview = query.cohort_overview(work, visit.today, visit.language, course)
        waiting = waiting_requests(work)
    keep_standings(visit.store, visit.school_id, overview.solved)
    return visit.show("cohort/cohort.html", overview=overview, course=course, waiting=waiting)


@pages.get("/cohort/message", may="see the cohort")
def message(visit: Here) -> Response:
    """A mail to all who stand so, each ticked, to be read over first."""
    return _message(visit, {"id": str(uuid.uuid4()), "subject": "", "words": ""}, None, [], 200)


@pages.post("/cohort/message", may="see the cohort")
def send(visit: Here) -> Response:
    """One mail to each, in their own name."""
    typed = {name: typed_text(visit.form, name) for name in ("id", "subject", "words")}
    to = tuple(visit.form.get("to", ()))
    try:
        number = write_to_trainees(visit.store, visit.asker, typed["id"], to, typed["subject"], typed["words"])
    except RefusedError as refusal:
        return _message(visit, typed, to, visit.faults(refusal.faults), 422)
    return visit.go("/cohort", visit.say(N_("Mails on their way: {number}"), number=number))


def _message(visit: Visit, typed: dict[str, str], to: tuple[str, ...] | None, faults: list, status: int) -> Response:
    course = visit.request.query_params.get("of", "")
    with visit.store.reading(visit.school_id) as work:
        overview = query.cohort_overview(work, visit.today, visit.language)
    keep_standings(visit.store, visit.school_id, overview.solved)
    people = [(line.href.rpartition("/")[2], f"{line.name} · {line.state}", line.course) for line in overview.lines]
    chosen = {id for id, _, kind in people if course in ("", kind)} if to is None else set(to)
    options = [(id, words) for id, words, _ in people]
    return visit.show("cohort/message.html", status, typed=typed, options=options, chosen=chosen, faults=faults)


@pages.get("/trainees/{enrolment_id}", may="see any standing")
def trainee(visit: Here, enrolment_id: str) -> Response:
    """One trainee's hours, as the trainee sees them."""
    with visit.store.reading(visit.school_id) as work:
        enrolment = work.enrolments.by_id(enrolment_id)
        person = work.people.by_id(enrolment.person_id) if enrolment else None
        if person is None:
            raise NotFoundError
        overview = hours_overview(work, enrolment, person.name, visit.today, visit.language)
    return visit.show("hours/hours.html", overview=overview, own=False)
