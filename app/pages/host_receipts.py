"""The receipt of a signature under the private link, and taking back one that was made on the spot by somebody else."""

from fastapi.responses import Response

from app.permissions import LINK_HOLDER
from app.queries import host as query
from app.queries.proof import receipt_of
from app.storage.hosts import Host
from app.use_cases import disowning as act
from app.web.door import Pages
from app.web.link_holder import ended, host_of, refuse_foreign_form, school_asking
from app.web.receipt_file import receipt_file
from app.web.visit import Here, Visit
from curriculum.faults import N_, RefusedError

pages = Pages()
PATH = "/h/{link}/receipts/{receipt_number}"


@pages.get(f"{PATH}.json", may=LINK_HOLDER)
def receipt(visit: Here, link: str, receipt_number: str) -> Response:
    """The receipt of a signature of one's own, to keep."""
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    with visit.store.reading(visit.school_id) as work:
        decision = work.hosts.by_receipt(receipt_number)
        own = decision is not None and decision.host_id == host.id
        found = receipt_of(work, decision.session_id, decision.version) if own else None
    return receipt_file(found, receipt_number)


@pages.get(f"{PATH}/not-me", may=LINK_HOLDER)
def signature(visit: Here, link: str, receipt_number: str) -> Response:
    """What was signed with the PIN, and the way to take it back."""
    host = host_of(visit, link)
    return _show(visit, link, host, receipt_number, [], 200) if host else ended(visit, link)


@pages.post(f"{PATH}/not-me", may=LINK_HOLDER)
def disown(visit: Here, link: str, receipt_number: str) -> Response:
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    refuse_foreign_form(visit)
    words, address = visit.typed("not-me-words"), visit.settings.public_address
    try:
        act.disown(visit.store, school_asking(visit), host, receipt_number, words, address)
    except RefusedError as refusal:
        return _show(visit, link, host, receipt_number, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go(
        f"/h/{link}/pin", visit.say(N_("Taken back, and your PIN is ended. The school's directors are told."))
    )


def _show(  # noqa: PLR0913 - what the page needs
    visit: Visit, link: str, host: Host, receipt_number: str, faults: list, status: int
) -> Response:
    with visit.store.reading(visit.school_id) as work:
        decision = act.spot_signature(work, host, receipt_number)
        stands = act.still_stands(work, decision) is not None
        session, _ = work.ledger.logged(decision.session_id, decision.version)
        overview = query.host_session(work, session, visit.language)
    shown = {"host": host, "overview": overview, "stands": stands, "number": receipt_number, "back": f"/h/{link}"}
    return visit.show("host/not_me.html", status, **shown, faults=faults, words=visit.typed("not-me-words"))
