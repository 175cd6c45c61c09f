"""Tokens for a person's own programs: made (the secret is shown once), listed, and ended."""

import secrets

from fastapi.responses import Response

from app.queries.tokens import scope_choices, token_lines
from app.use_cases import tokens as act
from app.web.door import Pages
from app.web.typed import whole_number
from app.web.visit import Here, Visit
from app.wording.tokens import DAYS
from curriculum.faults import N_, RefusedError

pages = Pages()


@pages.get("/tokens", may="keep own tokens")
def tokens(visit: Here) -> Response:
    """One's own tokens, and the form that makes one."""
    return _page(visit)


@pages.post("/tokens", may="keep own tokens")
def make(visit: Here) -> Response:
    """Make a token; this answer is the only place where its secret is ever shown."""
    scopes = frozenset(visit.form.get("scopes", ()))
    request = act.MakeToken(visit.typed("id"), visit.typed("label"), scopes, whole_number(visit.typed("days")))
    try:
        secret = act.make_token(visit.store, visit.asker, visit.roles, request)
    except RefusedError as refusal:
        return _page(visit, 422, faults=visit.faults(refusal.faults), typed=visit.typed, chosen=scopes)
    answer = _page(visit, secret=secret)
    answer.headers["cache-control"] = "no-store"
    return answer


@pages.post("/tokens/{token_id}/end", may="keep own tokens")
def end(visit: Here, token_id: str) -> Response:
    act.end_token(visit.store, visit.asker, token_id)
    return visit.go("/tokens", visit.say(N_("The token has ended. Programs that use it are refused from now on.")))


def _page(visit: Visit, status: int = 200, **values: object) -> Response:
    with visit.store.reading(visit.school_id) as work:
        lines = token_lines(work, visit.person.id, visit.now, visit.school.time_zone, visit.language)
    days = [(str(days), visit.say(DAYS, days=days)) for days in act.DAYS]
    shown = {"faults": [], "typed": lambda _: "", "chosen": frozenset(), "secret": ""} | values
    choices = scope_choices(visit.roles, visit.language)
    return visit.show(
        "tokens/tokens.html", status, lines=lines, scopes=choices, days=days, new_id=secrets.token_hex(16), **shown
    )
