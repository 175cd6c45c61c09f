"""Signing on the spot: the code on the trainee's screen, and the page where its host signs with their PIN."""

from datetime import datetime
from zoneinfo import ZoneInfo

from fastapi.responses import Response

from app.files.qr import qr_picture
from app.permissions import ANYONE
from app.queries import host as query
from app.storage.work import School
from app.use_cases import signing_on_the_spot as act
from app.web.door import Pages
from app.web.link_holder import post_of, school_asking
from app.web.own_enrolment import own_enrolment
from app.web.public_school import school_named
from app.web.typed import typed_text
from app.web.visit import Here, Visit
from app.wording.dates import clock_text
from curriculum.faults import N_, RefusedError

pages = Pages()
SIGNED = N_("Signed. Thank you.")
LEAD = N_("A mail tells you what you signed, with the receipt, and with the way to take it back if it wasn't you.")


@pages.post("/hours/sessions/{session_id}/code", may="log own hours")
def code(visit: Here, session_id: str) -> Response:
    """A code for a session of one's own that waits; it is shown once, since only its hash is kept."""
    enrolment = own_enrolment(visit)
    made, ends = act.make_code(visit.store, visit.asker, enrolment.id, session_id)
    path = f"/spot/{visit.school.slug}"
    address = f"{visit.settings.public_address}{path}"
    with visit.store.reading(visit.school_id) as work:
        session = work.ledger.now(session_id)
        overview = query.host_session(work, session, visit.language)
        host, pin = work.hosts.by_id(session.host), work.spot_codes.pin_of(session.host)
    return visit.show(
        "spot/code.html",
        code=f"{made[:4]}-{made[4:]}",
        picture=qr_picture(f"{address}?code={made}"),
        address=address,
        ends=_clock(visit, ends),
        overview=overview,
        host=host.name,
        has_pin=pin is not None,
    )


@pages.get("/spot/{slug}", may=ANYONE)
def look(visit: Here, slug: str) -> Response:
    """The form for a code; with one that works, what it names and the field for the PIN."""
    _at(visit, slug)
    typed = visit.request.query_params.get("code", "")
    return _show(visit, typed, [], 200)


@pages.post("/spot/{slug}", may=ANYONE)
def sign(visit: Here, slug: str) -> Response:
    """Look at what a code names, or sign it with the PIN."""
    _at(visit, slug)
    typed, pin = typed_text(visit.form, "code"), typed_text(visit.form, "pin")
    if "pin" not in visit.form:
        return _show(visit, typed, [], 200)
    try:
        named, receipt = act.sign_on_the_spot(visit.store, school_asking(visit), typed, pin, post_of(visit))
    except RefusedError as refusal:
        return _show(visit, typed, visit.faults(refusal.faults), 422)
    finally:
        visit.ask("mail")
    heading, lead = visit.say(SIGNED), visit.say(LEAD)
    values = {"host": named.host, "heading": heading, "lead": lead, "receipts": [receipt]}
    return visit.show("host/receipts.html", **values, signed=False, by_pin=True, more=visit.path)


def _show(visit: Visit, typed: str, faults: list, status: int) -> Response:
    """What the code names, or the form for another."""
    overview, host = None, ""
    if typed.strip():
        try:
            with visit.store.reading(visit.school_id) as work:
                named = act.named_by(work, typed, visit.now)
                overview, host = query.host_session(work, named.session, visit.language), named.host.name
        except RefusedError as refusal:
            faults, status = faults or visit.faults(refusal.faults), 422
    return visit.show("spot/sign.html", status, overview=overview, host=host, code=typed, faults=faults)


def _clock(visit: Visit, moment: datetime) -> str:
    local = moment.astimezone(ZoneInfo(visit.school.time_zone))
    return clock_text(local.hour * 60 + local.minute, visit.locale)


def _at(visit: Visit, slug: str) -> School:
    """The school of the address; who is signed in here is of no matter."""
    found = school_named(visit, slug)
    visit.school, visit.person, visit.roles = found, None, frozenset()
    visit.unread = ()
    return found
