"""The director's cohort, one trainee's hours, and the outbox."""

from collections.abc import Callable

from fastapi.responses import Response

from app.queries import cohort as query
from app.queries.hours import hours_overview
from app.queries.trainee_record import trainee_record
from app.use_cases import trainees as act
from app.use_cases.hours import Asker
from app.use_cases.standings import keep_standings
from app.web.door import Pages
from app.web.typed import typed_day
from app.web.visit import Here, Visit
from app.wording.dates import moment_text
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

pages = Pages()
MOST_MAIL = 100


@pages.get("/cohort", may="see the cohort")
def cohort(visit: Here) -> Response:
    """Every trainee on one line of time, worst first."""
    with visit.store.reading(visit.school_id) as work:
        overview = query.cohort_overview(work, visit.today, visit.language)
    keep_standings(visit.store, visit.school_id, overview.solved)
    return visit.show("cohort/cohort.html", lines=overview.lines, scale=overview.scale, counts=overview.counts)


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


@pages.get("/trainees/{enrolment_id}/record", may="record documents")
def record(visit: Here, enrolment_id: str) -> Response:
    """What the school has seen and granted, and who did what."""
    return _record(visit, enrolment_id, [], 200)


@pages.post("/trainees/{enrolment_id}/record/documents", may="record documents")
def record_document(visit: Here, enrolment_id: str) -> Response:
    def keep(asker: Asker) -> None:
        request = act.ShowDocument(visit.typed("kind").strip(), *_days(visit, "from", "to"))
        act.record_document(visit.store, asker, enrolment_id, request)

    return _kept(visit, enrolment_id, keep)


@pages.post("/trainees/{enrolment_id}/record/modules", may="record documents")
def record_module(visit: Here, enrolment_id: str) -> Response:
    def keep(asker: Asker) -> None:
        act.record_module(visit.store, asker, enrolment_id, visit.typed("module").strip(), *_days(visit, "done"))

    return _kept(visit, enrolment_id, keep)


@pages.post("/trainees/{enrolment_id}/record/time", may="record documents")
def grant_time(visit: Here, enrolment_id: str) -> Response:
    def keep(asker: Asker) -> None:
        request = act.GrantTime(visit.typed("granted"), *_days(visit, "first", "last"), visit.typed("why"))
        act.grant_time(visit.store, asker, enrolment_id, request)

    return _kept(visit, enrolment_id, keep)


def _kept(visit: Visit, enrolment_id: str, keep: Callable[[Asker], None]) -> Response:
    try:
        keep(Asker(visit.school, visit.person.id, visit.person.name, visit.now))
    except RefusedError as refusal:
        return _record(visit, enrolment_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/trainees/{enrolment_id}/record", visit.say(N_("It is on record.")))


def _days(visit: Visit, *names: str) -> list:
    """Days as typed, None where nothing was; refuses what is no day."""
    faults: list[Fault] = []
    typed = [(name, visit.typed(name).strip()) for name in names]
    days = [typed_day(text, name, N_("choose the day"), faults) if text else None for name, text in typed]
    if faults:
        raise RefusedError(faults)
    return days


def _record(visit: Visit, enrolment_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        enrolment = work.enrolments.by_id(enrolment_id)
        if enrolment is None:
            raise NotFoundError
        shown = trainee_record(work, enrolment, visit.school.time_zone, visit.language)
    here = f"/trainees/{enrolment_id}/record"
    return visit.show("cohort/record.html", status, record=shown, here=here, faults=faults, typed=visit.typed)


@pages.get("/outbox", may="read the outbox")
def outbox(visit: Here) -> Response:
    """Mail that was written; only where the installation shows it."""
    if not visit.settings.outbox_page:
        raise NotFoundError
    with visit.store.reading(visit.school_id) as work:
        mails = work.mail.newest(MOST_MAIL)
    shown = [
        {"mail": mail, "made_text": moment_text(mail.made_at, visit.school.time_zone, visit.locale)} for mail in mails
    ]
    return visit.show("records/outbox.html", mails=shown)
