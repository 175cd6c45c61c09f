"""One session as its host sees it through the private link: signed for less time, not taught by them, or a worry."""

import uuid
from collections.abc import Callable

from fastapi.responses import Response

from app.permissions import LINK_HOLDER
from app.queries import host as query
from app.queries.feedback import lessons_signed
from app.storage.hosts import Host
from app.use_cases import deciding_as_host as act
from app.use_cases.telling_worries import TellWorry, tell_worry
from app.web.door import Pages
from app.web.link_holder import ended, host_of, refuse_foreign_form, school_asking
from app.web.shorter_form import ShorterForm
from app.web.typed import typed_text, whole_number
from app.web.visit import Here, Visit
from assessments.hours.session import Session
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()
PATH = "/h/{link}/sessions/{session_id}"
SHORTER = N_("Signed for the shorter time. Thank you.")
SHORTER_LEAD = N_("The trainee sees the time you signed, and the one they had put down.")
DENIED = N_("Refused. Thank you for saying so.")
DENIED_LEAD = N_(
    "It earns nothing, and you are not asked again. The school's directors see what you said, and so does the trainee."
)


@pages.get(PATH, may=LINK_HOLDER)
def one_session(visit: Here, link: str, session_id: str) -> Response:
    host = host_of(visit, link)
    return _show(visit, host, _own(visit, host, session_id), None, [], 200) if host else ended(visit, link)


@pages.post(f"{PATH}/shorter", may=LINK_HOLDER)
def shorter(visit: Here, link: str, session_id: str) -> Response:
    """Sign it for less time than was put down."""

    def decided(host: Host, session: Session) -> Response:
        form = ShorterForm.typed(visit.form, session)
        try:
            receipt = act.sign_shorter(
                visit.store, visit.school, host, session.id, _version(visit), form.wish(), visit.now
            )
        except RefusedError as refusal:
            return _show(visit, host, session, form, visit.faults(refusal.faults), 422)
        return _receipt(visit, link, host, receipt, SHORTER, SHORTER_LEAD, signed=True)

    return _decided(visit, link, session_id, decided)


@pages.post(f"{PATH}/denied", may=LINK_HOLDER)
def denied(visit: Here, link: str, session_id: str) -> Response:
    """The host did not teach it."""

    def decided(host: Host, session: Session) -> Response:
        words = typed_text(visit.form, "deny-words")
        try:
            receipt = act.deny(
                visit.store, school_asking(visit), host, session.id, _version(visit), words, _address(visit)
            )
        except RefusedError as refusal:
            return _show(visit, host, session, None, visit.faults(refusal.faults), 422)
        visit.ask("mail")
        return _receipt(visit, link, host, receipt, DENIED, DENIED_LEAD, signed=False)

    return _decided(visit, link, session_id, decided)


@pages.post(f"{PATH}/worry", may=LINK_HOLDER)
def worry(visit: Here, link: str, session_id: str) -> Response:
    """Tell the school's directors something in private."""

    def decided(host: Host, session: Session) -> Response:
        request = TellWorry(typed_text(visit.form, "id"), session.id, typed_text(visit.form, "worry"))
        try:
            tell_worry(visit.store, school_asking(visit), host, request, _address(visit))
        except RefusedError as refusal:
            return _show(visit, host, session, None, visit.faults(refusal.faults), 422)
        visit.ask("mail")
        return visit.go(f"/h/{link}", visit.say(N_("Told. Nobody but the school's directors reads it.")))

    return _decided(visit, link, session_id, decided)


def _decided(visit: Visit, link: str, session_id: str, decide: Callable[[Host, Session], Response]) -> Response:
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    refuse_foreign_form(visit)
    return decide(host, _own(visit, host, session_id))


def _own(visit: Visit, host: Host, session_id: str) -> Session:
    """A session that this host was asked about; no other is there."""
    with visit.store.reading(visit.school_id) as work:
        session = work.ledger.now(session_id)
    if session is None or session.host != host.id:
        raise NotFoundError
    return session


def _address(visit: Visit) -> str:
    return visit.settings.public_address


def _version(visit: Visit) -> int:
    return whole_number(typed_text(visit.form, "version"))


def _show(  # noqa: PLR0913 - what the page needs
    visit: Visit, host: Host, session: Session, form: ShorterForm | None, faults: list, status: int
) -> Response:
    with visit.store.reading(visit.school_id) as work:
        overview = query.host_session(work, session, visit.language)
    back = f"/h/{visit.request.path_params['link']}"
    return visit.show(
        "host/session.html",
        status,
        host=host,
        overview=overview,
        form=form or ShorterForm.of(session),
        shorter_open=form is not None,
        faults=faults,
        typed=visit.typed,
        back=back,
        request_id=typed_text(visit.form, "id") or str(uuid.uuid4()),
    )


def _receipt(  # noqa: PLR0913 - what the page says
    visit: Visit, link: str, host: Host, receipt: str, heading: str, lead: str, *, signed: bool
) -> Response:
    with visit.store.reading(visit.school_id) as work:
        lessons = lessons_signed(work, [receipt], visit.language) if signed else []
    return visit.show(
        "host/receipts.html",
        lessons=lessons,
        host=host,
        heading=visit.say(heading),
        lead=visit.say(lead),
        receipts=[receipt],
        signed=signed,
        more=f"/h/{link}",
    )
