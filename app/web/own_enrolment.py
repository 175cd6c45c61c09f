"""The enrolment that the visitor trains on, or a sentence where there is none yet."""

from app.storage.enrolments import Enrolment
from app.web.visit import Visit
from curriculum.faults import N_, NotFoundError


def own_enrolment(visit: Visit) -> Enrolment:
    """The visitor's newest enrolment; `NotFoundError` says whom to ask where there is none."""
    with visit.store.reading(visit.school_id) as work:
        own = work.enrolments.of_person(visit.person.id)
    if not own:
        raise NotFoundError(N_("You are not enrolled in a programme yet. Ask the school."))
    return max(own, key=lambda enrolment: enrolment.enrolled_on)
