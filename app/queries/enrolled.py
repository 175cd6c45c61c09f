"""Who is enrolled and still in training."""

from app.storage.enrolments import Enrolment
from app.storage.work import Work


def enrolled_now(work: Work) -> list[Enrolment]:
    """The enrolments of those who have not left, and were not certified on them."""
    gone, certified = work.people.gone(), work.certificates.certified()
    return [one for one in work.enrolments.all() if one.person_id not in gone and one.id not in certified]
