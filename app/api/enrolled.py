"""Whose record it is: one's own enrolment, or the one that was named."""

from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.web.visit import Visit
from curriculum.faults import N_, NotFoundError


def own_enrolment(visit: Visit) -> Enrolment:
    """The newest enrolment of who asks."""
    with visit.store.reading(visit.school_id) as work:
        return own_enrolment_in(work, visit)


def own_enrolment_in(work: Work, visit: Visit) -> Enrolment:
    """The same, within work that is open."""
    own = work.enrolments.of_person(visit.person.id)
    if not own:
        raise NotFoundError(N_("You are not enrolled in a programme yet. Ask the school."))
    return max(own, key=lambda enrolment: enrolment.enrolled_on)


def enrolment_named(visit: Visit, enrolment_id: str) -> Enrolment:
    """An enrolment of this school."""
    with visit.store.reading(visit.school_id) as work:
        found = work.enrolments.by_id(enrolment_id)
    if found is None:
        raise NotFoundError
    return found
