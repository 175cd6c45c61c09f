"""Examiners from outside: invited by the director, let in by their private link."""

from fastapi.responses import Response

from app.permissions import LINK_HOLDER
from app.queries.exam_seats import panel_overview
from app.use_cases.inviting_outsiders import Invite, invite_outsider, open_invitation, withdraw_outsider
from app.web.door import Pages
from app.web.visit import COOKIE, Here, Visit, token_hash
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/exams/{exam_id}/outsider", may="set exams")
def inviting(visit: Here, exam_id: str) -> Response:
    """Where the director invites somebody to an open place."""
    return _inviting(visit, exam_id, [], 200)


@pages.post("/exams/{exam_id}/outsider", may="set exams")
def invite(visit: Here, exam_id: str) -> Response:
    request = Invite(exam_id, visit.typed("name"), visit.typed("email"), visit.typed("reason"))
    try:
        invite_outsider(visit.store, visit.asker, request, visit.settings.public_address)
    except RefusedError as refusal:
        return _inviting(visit, exam_id, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go(f"/exams/{exam_id}/panel", visit.say(N_("Invited. Their link is on its way by mail.")))


@pages.post("/exams/{exam_id}/outsider/withdrawn", may="set exams")
def withdraw(visit: Here, exam_id: str) -> Response:
    withdraw_outsider(visit.store, visit.asker, exam_id, visit.typed("person"))
    return visit.go(f"/exams/{exam_id}/panel", visit.say(N_("The invitation is withdrawn; the place is open.")))


@pages.get("/invited/{invitation}", may=LINK_HOLDER)
def welcome(visit: Here, invitation: str) -> Response:
    """What the link is; opening it takes a press, so that a mail program that looks ahead signs nobody in."""
    known = _known(visit, invitation)
    return visit.show("invited/welcome.html", 200 if known else 410, link=invitation, known=known)


@pages.post("/invited/{invitation}", may=LINK_HOLDER)
def enter(visit: Here, invitation: str) -> Response:
    """Sign the holder in, for as long as the link holds."""
    if not _known(visit, invitation):
        return visit.show("invited/welcome.html", 410, link=invitation, known=False)
    school_id, _, token = invitation.partition(".")
    fresh = open_invitation(visit.store, school_id, token, visit.now)
    answer = visit.go("/sheets")
    age, secure = visit.settings.sign_in_days * 86400, visit.settings.secure_cookies
    answer.set_cookie(COOKIE, f"{school_id}.{fresh}", max_age=age, httponly=True, samesite="lax", secure=secure)
    return answer


def _known(visit: Visit, invitation: str) -> bool:
    """Whether the link holds; the visit is nobody's then, whoever else is signed in on this device."""
    school_id, _, token = invitation.partition(".")
    visit.person, visit.roles, visit.token = None, frozenset(), ""
    visit.school = visit.store.school(school_id)
    if visit.school is None or not token:
        return False
    with visit.store.reading(school_id) as work:
        return work.exam_seats.invitation(token_hash(token), visit.now) is not None


def _inviting(visit: Visit, exam_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None:
            raise NotFoundError
        overview = panel_overview(work, exam, visit.school.time_zone, visit.language)
    return visit.show("invited/invite.html", status, overview=overview, faults=faults, typed=visit.typed)
