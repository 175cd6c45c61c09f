"""The edition of the repertoire that the visitor works with, or a sentence where there is none yet."""

from app.queries.repertoire import repertoire_of
from app.web.visit import Visit
from curriculum.faults import N_, NotFoundError
from curriculum.repertoire.edition import Edition


def own_edition(visit: Visit) -> Edition:
    """The visitor's edition; `NotFoundError` says whom to ask where none is published for them."""
    with visit.store.reading(visit.school_id) as work:
        edition = repertoire_of(work, visit.person.id, visit.roles)
    if edition is None:
        raise NotFoundError(N_("No repertoire has been published for you yet. Ask the school."))
    return edition
