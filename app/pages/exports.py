"""The hour log as files to take away: a trainee's own; for the director any trainee's, and the cohort's."""

from fastapi.responses import Response

from app.queries.enrolled import enrolled_now
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.web.door import Pages
from app.web.log_files import COHORT_FILES, FILES, taken_away
from app.web.visit import Here, Visit
from curriculum.faults import NotFoundError

pages = Pages()


@pages.get("/hours/log", may="see own standing")
def own(visit: Here) -> Response:
    """The files of one's own log, and what each is for."""
    with visit.store.reading(visit.school_id) as work:
        _own(visit, work)
    return visit.show("exports/exports.html", name="", files=FILES, back="/hours")


@pages.get("/hours/log/{log_file}", may="see own standing")
def own_file(visit: Here, log_file: str) -> Response:
    with visit.store.reading(visit.school_id) as work:
        return taken_away(visit, work, [_own(visit, work)], log_file, FILES)


@pages.get("/trainees/{enrolment_id}/log", may="see any standing")
def of_trainee(visit: Here, enrolment_id: str) -> Response:
    with visit.store.reading(visit.school_id) as work:
        name = work.people.names()[_of(work, enrolment_id).person_id]
    return visit.show("exports/exports.html", name=name, files=FILES, back=f"/trainees/{enrolment_id}")


@pages.get("/trainees/{enrolment_id}/log/{log_file}", may="see any standing")
def file_of_trainee(visit: Here, enrolment_id: str, log_file: str) -> Response:
    with visit.store.reading(visit.school_id) as work:
        return taken_away(visit, work, [_of(work, enrolment_id)], log_file, FILES)


@pages.get("/cohort/log", may="see any standing")
def of_cohort(visit: Here) -> Response:
    return visit.show("exports/exports.html", name=visit.say("Cohort"), files=COHORT_FILES, back="/cohort")


@pages.get("/cohort/log/{log_file}", may="see any standing")
def file_of_cohort(visit: Here, log_file: str) -> Response:
    """Everybody who has not left, in one file."""
    with visit.store.reading(visit.school_id) as work:
        return taken_away(visit, work, enrolled_now(work), log_file, COHORT_FILES)


def _own(visit: Visit, work: Work) -> Enrolment:
    own_enrolments = work.enrolments.of_person(visit.person.id)
    if not own_enrolments:
        raise NotFoundError
    return max(own_enrolments, key=lambda one: one.enrolled_on)


def _of(work: Work, enrolment_id: str) -> Enrolment:
    enrolment = work.enrolments.by_id(enrolment_id)
    if enrolment is None:
        raise NotFoundError
    return enrolment
