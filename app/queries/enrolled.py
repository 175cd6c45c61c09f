"""Who is enrolled and still at the school."""

from app.storage.enrolments import Enrolment
from app.storage.work import Work


def enrolled_now(work: Work) -> list[Enrolment]:
    """The enrolments of those who have not left."""
    gone = work.people.gone()
    return [one for one in work.enrolments.all() if one.person_id not in gone]
