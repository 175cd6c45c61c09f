"""The outbox: mail the school wrote, and how far it has come."""

from fastapi.responses import Response

from app.queries.outbox import outbox_overview
from app.use_cases.delivering_mail import try_again
from app.web.door import Pages
from app.web.visit import Here
from curriculum.faults import N_, NotFoundError

pages = Pages()


@pages.get("/outbox", may="read the outbox")
def outbox(visit: Here) -> Response:
    """Every mail once; what did not arrive first. Only where the installation shows it."""
    if not visit.settings.outbox_page:
        raise NotFoundError
    sends = visit.settings.mail_server is not None
    with visit.store.reading(visit.school_id) as work:
        overview = outbox_overview(work, sends, visit.school.time_zone, visit.language)
    return visit.show("records/outbox.html", overview=overview, sends=sends)


@pages.post("/outbox/{mail_id}/again", may="send mail again")
def again(visit: Here, mail_id: str) -> Response:
    """Put a mail that did not arrive on its way once more."""
    try_again(visit.store, visit.asker, mail_id)
    visit.ask("mail")
    return visit.go("/outbox", visit.say(N_("It is on its way again.")))
