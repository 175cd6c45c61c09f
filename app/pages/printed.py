"""The repertoire on paper: the handbook, a leaf for each exercise, a poster for each level."""

import importlib
import json
from functools import lru_cache

from fastapi.responses import Response

from app.queries import printed as query
from app.queries.repertoire import notices_about, notices_by_subject
from app.web.door import Pages
from app.web.own_edition import own_edition
from app.web.visit import Here, Visit
from curriculum.faults import NotFoundError

pages = Pages()


@pages.get("/handbook.pdf", may="read the repertoire")
def handbook(visit: Here) -> Response:
    """The whole edition, with the safety notices that stand."""
    edition = own_edition(visit)
    with visit.store.reading(visit.school_id) as work:
        notices = notices_by_subject(work)
    data = query.handbook(edition, notices, visit.school.name, visit.language)
    return _pdf(_handbook(json.dumps(data), _day(visit)), f"{edition.id}.pdf")


@pages.get("/leaves/{exercise_id}.pdf", may="read the repertoire")
def leaf(visit: Here, exercise_id: str) -> Response:
    """One exercise on one page."""
    edition = own_edition(visit)
    found = edition.exercise(exercise_id)
    if found is None:
        raise NotFoundError
    with visit.store.reading(visit.school_id) as work:
        notices = notices_about(work, exercise_id, found.apparatus)
    data = query.leaf(edition, exercise_id, notices, visit.school.name, visit.language)
    return _pdf(_typesetting().one_page_pdf("exercise.typ", data, _day(visit)), f"{exercise_id}.pdf")


@pages.get("/posters/{level_id}.pdf", may="read the repertoire")
def poster(visit: Here, level_id: str) -> Response:
    """The order up to a level, on one sheet."""
    data = query.poster(own_edition(visit), level_id, visit.school.name, visit.language)
    return _pdf(_typesetting().made_pdf("poster.typ", data, _day(visit)), f"{level_id}.pdf")


@lru_cache(maxsize=4)
def _handbook(data: str, timestamp: int) -> bytes:
    """Kept, since a handbook takes seconds to set and changes with an edition or a notice."""
    return _typesetting().made_pdf("handbook.typ", json.loads(data), timestamp)


def _typesetting():  # noqa: ANN202 - a module
    # Loaded when a PDF is asked for: it would slow every start down.
    return importlib.import_module("app.files.pdf")


def _day(visit: Visit) -> int:
    """Noon (UTC) of the visitor's day: the same file all day long."""
    return int(visit.now.replace(hour=12, minute=0, second=0, microsecond=0).timestamp())


def _pdf(body: bytes, name: str) -> Response:
    headers = {"content-disposition": f'inline; filename="{name}"'}
    return Response(body, media_type="application/pdf", headers=headers)
