"""The host teachers whom a session can name."""

from datetime import date

from app.api.asking import Asked
from app.api.door import Api
from app.api.shapes import Answer, Cursor, Limit, Page, page

api = Api("hosts")


class ShownHost(Answer):
    """A host teacher; may sign for days from `verified_on` to `eligible_until`, both counted."""

    id: str
    name: str
    site: str
    level: str
    verified_on: date
    eligible_until: date | None


@api.get("/hosts", may="log own hours", scope="hosts:read", answers=Page[ShownHost])
def offered_hosts(visit: Asked, limit: Limit = 50, cursor: Cursor = "") -> dict:
    """The hosts who can be named today."""
    with visit.store.reading(visit.school_id) as work:
        offered = [ShownHost.model_validate(one) for one in work.hosts.all() if one.offered_on(visit.today)]
    return page(offered, lambda one: one.id, limit, cursor)
