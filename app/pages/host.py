"""The host teacher's private link: what waits, signed or sent back, without an account."""

from itertools import groupby

from fastapi.responses import Response

from app.permissions import LINK_HOLDER
from app.queries import host as query
from app.queries.feedback import lessons_signed
from app.queries.places import asks_waiting
from app.storage.hosts import Host
from app.use_cases import deciding_as_host as act
from app.use_cases.deciding_as_host import Decide
from app.use_cases.renewing_links import renew_link
from app.web.door import Pages
from app.web.link_holder import ended, host_of, post_of, refuse_foreign_form, school_asking
from app.web.typed import whole_number
from app.web.visit import Here, Visit, token_hash
from curriculum.faults import N_, Fault, RefusedError

pages = Pages()
SIGNED = (
    N_("Signed. Thank you."),
    N_("Keep the receipts if you like: each shows later whether anything was changed."),
)
BACK = (N_("Sent back"), N_("The trainee reads your reason and can put it right."))


@pages.get("/h/{link}", may=LINK_HOLDER)
def waiting(visit: Here, link: str) -> Response:
    """What waits for this host, by day."""
    host = host_of(visit, link)
    return _show(visit, host, [], 200) if host else ended(visit, link)


@pages.post("/h/{link}", may=LINK_HOLDER)
def decide(visit: Here, link: str) -> Response:
    """Sign what is ticked, or send one back with a reason."""
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    refuse_foreign_form(visit)
    try:
        receipts = act.decide_as_host(visit.store, visit.school, host, _requests(visit), visit.now)
    except RefusedError as refusal:
        return _show(visit, host, visit.faults(refusal.faults), 422)
    back = bool(visit.typed("back"))
    heading, lead = (visit.say(text) for text in (BACK if back else SIGNED))
    with visit.store.reading(visit.school_id) as work:
        lessons = [] if back else lessons_signed(work, receipts, visit.language)
    values = {"host": host, "heading": heading, "lead": lead, "receipts": receipts, "lessons": lessons}
    return visit.show("host/receipts.html", **values, signed=not back, more=visit.path)


@pages.post("/h/{link}/renew", may=LINK_HOLDER)
def renew(visit: Here, link: str) -> Response:
    """A new link for one that has ended; the answer is the same whether there ever was one."""
    host_of(visit, link)
    refuse_foreign_form(visit)
    if visit.school is not None:
        renew_link(visit.store, school_asking(visit), token_hash(visit.token), post_of(visit))
        visit.ask("mail")
    return visit.show("host/renewed.html")


def _requests(visit: Visit) -> tuple[Decide, ...]:
    back = visit.typed("back")
    keys = [back] if back else visit.form.get("session", [])
    requests = tuple(_request(visit, key, not back) for key in keys if ":" in key)
    if not requests:
        raise RefusedError([Fault("nothing", N_("tick at least one session to sign"))])
    return requests


def _request(visit: Visit, key: str, sign: bool) -> Decide:
    session_id, _, version = key.rpartition(":")
    return Decide(session_id, whole_number(version), sign, visit.typed(f"reason-{session_id}"))


def _show(visit: Visit, host: Host, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        rows = query.waiting_rows(work, host, visit.form, visit.language)
        asks = asks_waiting(work, host, visit.today)
    days = [(day, list(some)) for day, some in groupby(rows, key=lambda row: row.day)]
    return visit.show("host/sign.html", status, host=host, days=days, faults=faults, asks=asks)
