"""Who asks through a program: the person of a token, who may do what its scopes and their roles both open."""

from typing import Annotated

from fastapi import Depends, Request

from app.api.door import scope_of
from app.permissions import may
from app.storage.work import Store
from app.use_cases.tokens import note_use, token_of
from app.web.door import act_of
from app.web.errors import TooManyRequestsError
from app.web.visit import SignInNeededError, Visit
from curriculum.faults import N_, NotAllowedError, NotFoundError

NEEDED = N_("Send a token of your own: Authorization: Bearer …")
UNKNOWN = N_("This token is unknown or has ended. Make a new one under your name at the top of any page.")
TOO_MANY = N_("This token has asked too often. Wait as many seconds as Retry-After says.")
NOT_GIVEN = N_("This token was not given the scope {scope}.")


def enter_with_token(request: Request) -> Visit:
    """Open a visit for a program, or refuse it. Cookies are not looked at, so no other site can use them."""
    route, state = request.scope["route"], request.app.state
    visit = Visit(request, state.store, state.settings, state.now())
    kind, _, secret = request.headers.get("authorization", "").partition(" ")
    if kind.lower() != "bearer" or not secret:
        raise SignInNeededError(NEEDED)
    scopes = _recognise(visit, state.store, secret.strip())
    if not may(visit.roles, act_of(route)):
        raise NotFoundError
    if scope_of(route) not in scopes:
        raise NotAllowedError(visit.say(NOT_GIVEN, scope=scope_of(route)))
    return visit


def _recognise(visit: Visit, store: Store, secret: str) -> frozenset[str]:
    school_id = secret.partition(".")[0]
    school = store.school(school_id)
    if school is None:
        raise SignInNeededError(UNKNOWN)
    with store.reading(school.id) as work:
        token = token_of(work, secret, visit.now)
        person = work.people.by_id(token.person_id) if token else None
        if person is None or person.left_at is not None:
            raise SignInNeededError(UNKNOWN)
        visit.school, visit.person, visit.roles = school, person, frozenset(work.people.roles(person.id))
    seconds = visit.request.app.state.pace.wait(token.id, visit.now)
    if seconds:
        raise TooManyRequestsError(TOO_MANY, seconds)
    note_use(store, school.id, token, visit.now)
    visit.request.state.token = token
    return token.scopes


Asked = Annotated[Visit, Depends(enter_with_token)]
