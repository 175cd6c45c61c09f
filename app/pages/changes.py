"""How the credit of one trainee changed since a day: for the trainee, and for the director."""

from datetime import date, timedelta

from fastapi.responses import Response

from app.queries.changes import changes_since
from app.storage.enrolments import Enrolment
from app.web.door import Pages
from app.web.own_enrolment import own_enrolment
from app.web.visit import Here, Visit
from curriculum.faults import N_, Fault, NotFoundError

pages = Pages()
DAYS_BACK = 7


@pages.get("/hours/changes", may="see own standing")
def own_changes(visit: Here, since: str = "") -> Response:
    return _changes(visit, own_enrolment(visit), since, "/hours")


@pages.get("/trainees/{enrolment_id}/changes", may="see any standing")
def any_changes(visit: Here, enrolment_id: str, since: str = "") -> Response:
    with visit.store.reading(visit.school_id) as work:
        enrolment = work.enrolments.by_id(enrolment_id)
    if enrolment is None:
        raise NotFoundError
    return _changes(visit, enrolment, since, f"/trainees/{enrolment_id}")


def _changes(visit: Visit, enrolment: Enrolment, since: str, back: str) -> Response:
    faults, day = [], visit.today - timedelta(days=DAYS_BACK)
    if since:
        try:
            day = date.fromisoformat(since)
        except ValueError:
            faults = [Fault("no-day", N_("choose the day"), field="since")]
        if day > visit.today:
            faults = [Fault("not-yet", N_("choose a day up to today"), field="since")]
    changes = None
    if not faults:
        with visit.store.reading(visit.school_id) as work:
            changes = changes_since(work, enrolment, day, visit.today, visit.school, visit.language)
    shown = since[:20] if faults else day.isoformat()
    return visit.show(
        "changes/changes.html",
        422 if faults else 200,
        changes=changes,
        since=shown,
        faults=visit.faults(tuple(faults)),
        back=back,
    )
