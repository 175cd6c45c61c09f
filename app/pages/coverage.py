"""The coverage map: a trainee's own, one trainee's for the director, and the cohort's."""

from fastapi.responses import Response

from app.queries.cohort_coverage import cohort_coverage
from app.queries.coverage import coverage_overview
from app.queries.feedback import feedback_shown
from app.web.door import Pages
from app.web.own_enrolment import own_enrolment
from app.web.visit import Here
from curriculum.faults import N_, NotFoundError

pages = Pages()


@pages.get("/coverage", may="see own coverage")
def own(visit: Here) -> Response:
    """One's own map."""
    enrolment = own_enrolment(visit)
    with visit.store.reading(visit.school_id) as work:
        overview = coverage_overview(work, enrolment, visit.language)
        feedback = feedback_shown(work, enrolment, visit.language)
    return visit.show("coverage/trainee.html", overview=overview, feedback=feedback, name="", back="/repertoire")


@pages.get("/trainees/{enrolment_id}/coverage", may="see any coverage")
def trainee(visit: Here, enrolment_id: str) -> Response:
    """One trainee's map, as the trainee sees it."""
    with visit.store.reading(visit.school_id) as work:
        enrolment = work.enrolments.by_id(enrolment_id)
        person = work.people.by_id(enrolment.person_id) if enrolment else None
        if person is None:
            raise NotFoundError
        overview = coverage_overview(work, enrolment, visit.language)
        feedback = feedback_shown(work, enrolment, visit.language)
    back = f"/trainees/{enrolment_id}"
    return visit.show("coverage/trainee.html", overview=overview, feedback=feedback, name=person.name, back=back)


@pages.get("/cohort/coverage", may="see any coverage")
def cohort(visit: Here) -> Response:
    """How many trainees have seen each exercise."""
    with visit.store.reading(visit.school_id) as work:
        overview = cohort_coverage(work, visit.language)
    if overview is None:
        raise NotFoundError(N_("No repertoire has been published yet."))
    return visit.show("coverage/cohort.html", overview=overview)
