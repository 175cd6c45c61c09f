"""The school that a public address names."""

from app.storage.work import School
from app.web.visit import Visit
from curriculum.faults import NotFoundError


def school_named(visit: Visit, slug: str) -> School:
    """The school with this short name; raises `NotFoundError`."""
    found = next((school for school in visit.store.schools() if school.slug == slug), None)
    if found is None:
        raise NotFoundError
    return found


def visit_public(visit: Visit, slug: str) -> None:
    """Make it a visit of this school; whoever is signed in at another one is nobody here."""
    found = school_named(visit, slug)
    if visit.school is not None and visit.school.id != found.id:
        visit.person, visit.roles, visit.unread = None, frozenset(), ()
    visit.school = found
