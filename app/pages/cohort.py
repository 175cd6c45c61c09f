"""The director's cohort, and one trainee's hours."""

from fastapi.responses import Response

from app.queries import cohort as query
from app.queries.hours import hours_overview
from app.use_cases.standings import keep_standings
from app.web.door import Pages
from app.web.visit import Here
from curriculum.faults import NotFoundError

pages = Pages()


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
