"""The host teacher's own record under the private link: what they signed, the statement of a year, what is kept of them."""

import importlib

from fastapi.responses import Response

from app.permissions import LINK_HOLDER
from app.queries.host_record import Statement, host_record, statement
from app.storage.hosts import Host
from app.web.door import Pages
from app.web.link_holder import ended, host_of
from app.web.typed import whole_number
from app.web.visit import Here, Visit
from curriculum.faults import NotFoundError

pages = Pages()
FIRST_YEAR = 1900


@pages.get("/h/{link}/record", may=LINK_HOLDER)
def record(visit: Here, link: str) -> Response:
    """What stands signed in the year that is asked for, or in this one."""
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    year = whole_number(visit.request.query_params.get("year", ""), visit.today.year)
    with visit.store.reading(visit.school_id) as work:
        found = host_record(work, host, year, visit.school.time_zone, visit.language)
    return visit.show("host/record.html", host=host, record=found, back=f"/h/{link}")


@pages.get("/h/{link}/statements/{year}.pdf", may=LINK_HOLDER)
def statement_as_pdf(visit: Here, link: str, year: str) -> Response:
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    found = _statement(visit, host, year)
    # Typesetting is loaded when a PDF is asked for: it would slow every start down.
    printing = importlib.import_module("app.files.statement_pdf")
    body = printing.statement_pdf(
        found.title,
        found.school,
        (found.says, found.so_far),
        found.figures,
        found.root,
        visit.now,
        found.made,
        visit.language,
    )
    headers = {"content-disposition": 'inline; filename="mentoring.pdf"'}
    return Response(body, media_type="application/pdf", headers=headers)


@pages.get("/h/{link}/statements/{year}", may=LINK_HOLDER)
def yearly_statement(visit: Here, link: str, year: str) -> Response:
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    return visit.show(
        "host/statement.html",
        host=host,
        statement=_statement(visit, host, year),
        year=year,
        back=f"/h/{link}",
    )


@pages.get("/h/{link}/privacy", may=LINK_HOLDER)
def privacy(visit: Here, link: str) -> Response:
    """What the school keeps of a host, who reads it, for how long, and what they can ask for."""
    host = host_of(visit, link)
    return visit.show("host/privacy.html", host=host, back=f"/h/{link}") if host else ended(visit, link)


def _statement(visit: Visit, host: Host, year: str) -> Statement:
    """Of a year that has begun."""
    number = whole_number(year)
    if not FIRST_YEAR <= number <= visit.today.year:
        raise NotFoundError
    with visit.store.reading(visit.school_id) as work:
        return statement(work, host, number, visit.school.name, visit.today, visit.language)
