"""The host teacher's PIN for signing on the spot, under the private link: set, changed, ended."""

from fastapi.responses import Response

from app.permissions import LINK_HOLDER
from app.storage.hosts import Host
from app.use_cases import keeping_pins as act
from app.web.door import Pages
from app.web.link_holder import ended, host_of, post_of, refuse_foreign_form, school_asking
from app.web.typed import typed_text
from app.web.visit import Here, Visit
from app.wording.dates import moment_text
from curriculum.faults import N_, RefusedError

pages = Pages()


@pages.get("/h/{link}/pin", may=LINK_HOLDER)
def pin(visit: Here, link: str) -> Response:
    host = host_of(visit, link)
    return _show(visit, link, host, [], 200) if host else ended(visit, link)


@pages.post("/h/{link}/pin", may=LINK_HOLDER)
def set_pin(visit: Here, link: str) -> Response:
    """Set or change it; what was typed is never shown again."""
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    refuse_foreign_form(visit)
    typed = (typed_text(visit.form, name) for name in ("pin", "again"))
    try:
        act.set_pin(visit.store, school_asking(visit), host, *typed, post_of(visit))
    except RefusedError as refusal:
        return _show(visit, link, host, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go(f"/h/{link}/pin", visit.say(N_("Your PIN is set. A mail tells you so.")))


@pages.post("/h/{link}/pin/end", may=LINK_HOLDER)
def end_pin(visit: Here, link: str) -> Response:
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    refuse_foreign_form(visit)
    act.end_pin(visit.store, school_asking(visit), host)
    return visit.go(f"/h/{link}/pin", visit.say(N_("Your PIN is ended. Nothing can be signed with it.")))


def _show(visit: Visit, link: str, host: Host, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        found = work.spot_codes.pin_of(host.id)
    since = moment_text(found.set_at, visit.school.time_zone, visit.locale) if found else ""
    return visit.show("host/pin.html", status, host=host, since=since, faults=faults, back=f"/h/{link}")
