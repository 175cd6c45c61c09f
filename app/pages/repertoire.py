"""The repertoire: its order, one apparatus, one exercise."""

from fastapi.responses import Response

from app.permissions import TRAINEE
from app.queries import repertoire as query
from app.queries.coverage import OwnCoverage, own_coverage
from app.queries.exercise import exercise_overview
from app.web.door import Pages
from app.web.visit import Here, Visit
from curriculum.faults import NotFoundError
from curriculum.repertoire.edition import Edition

pages = Pages()


@pages.get("/repertoire", may="read the repertoire")
def order(visit: Here, q: str = "") -> Response:
    """Every apparatus and its series in order, or what a search finds."""
    edition = _edition(visit)
    asked = " ".join(q.split())[: query.MOST_ASKED]
    return visit.show(
        "repertoire/order.html",
        edition=edition,
        apparatus=query.order_overview(edition) if edition else (),
        asked=asked,
        found=query.found_in(edition, asked, visit.language) if edition else (),
    )


@pages.get("/repertoire/{apparatus_id}", may="read the repertoire")
def apparatus(visit: Here, apparatus_id: str) -> Response:
    """The exercises of one apparatus, in order."""
    overview = query.apparatus_overview(_needed_edition(visit), apparatus_id, visit.language)
    return visit.show("repertoire/apparatus.html", overview=overview, notices=_notices(visit, apparatus_id))


@pages.get("/repertoire/exercises/{exercise_id}", may="read the repertoire")
def exercise(visit: Here, exercise_id: str) -> Response:
    """One exercise, whole."""
    overview = exercise_overview(_needed_edition(visit), exercise_id, visit.language)
    notices = _notices(visit, exercise_id, overview.exercise.apparatus)
    own = _own_coverage(visit, exercise_id)
    return visit.show("repertoire/exercise.html", overview=overview, notices=notices, own=own)


def _notices(visit: Visit, *subjects: str) -> tuple[str, ...]:
    with visit.store.reading(visit.school_id) as work:
        return query.notices_about(work, *subjects)


def _own_coverage(visit: Visit, exercise_id: str) -> OwnCoverage | None:
    """The trainee's own coverage beside the exercise; nobody else has one."""
    if TRAINEE not in visit.roles:
        return None
    with visit.store.reading(visit.school_id) as work:
        enrolments = work.enrolments.of_person(visit.person.id)
        if not enrolments:
            return None
        enrolment = max(enrolments, key=lambda one: one.enrolled_on)
        return own_coverage(work, enrolment, _needed_edition(visit), exercise_id, visit.language)


def _edition(visit: Visit) -> Edition | None:
    with visit.store.reading(visit.school_id) as work:
        return query.repertoire_of(work, visit.person.id, visit.roles)


def _needed_edition(visit: Visit) -> Edition:
    edition = _edition(visit)
    if edition is None:
        raise NotFoundError
    return edition
