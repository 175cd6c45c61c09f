"""Tokens for a person's own programs: made (the secret is shown once), used, and ended."""

import hashlib
import re
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from app.permissions import scopes_for
from app.storage.tokens import Token
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

DAYS = (30, 90, 365)
LONGEST = 80
MOST = 20
# When it was last used is written down at most this often: a program may ask many times a minute.
SELDOM = timedelta(minutes=10)
MADE_ALREADY = N_("This token was made already. Its secret can't be shown again: end it and make another.")
ID = re.compile(r"[0-9a-f]{32}")


@dataclass(frozen=True, slots=True)
class MakeToken:
    """What a token is for, what it opens, and for how many days; `id` was made by the form."""

    id: str
    label: str
    scopes: frozenset[str]
    days: int


def make_token(store: Store, asker: Asker, roles: frozenset[str], request: MakeToken) -> str:
    """The secret of a new token, which nobody can find again; only its hash is kept. The same form makes one token."""
    with store.writing(asker.school.id) as work:
        if work.tokens.by_id(request.id) is not None:
            raise ConflictError(MADE_ALREADY)
        working = [one for one in work.tokens.of_person(asker.person_id) if one.ends_at > asker.now]
        faults = _faults(roles, request)
        if len(working) >= MOST:
            faults.append(Fault("too-many", N_("you have {most} tokens; end one first"), {"most": MOST}, "label"))
        if faults:
            raise RefusedError(faults)
        secret = f"{asker.school.id}.{secrets.token_urlsafe(32)}"
        ends = asker.now + timedelta(days=request.days)
        token = Token(
            request.id, _hash(secret), asker.person_id, request.label.strip(), request.scopes, asker.now, ends
        )
        work.tokens.add(token)
        work.commit()
    return secret


def end_token(store: Store, asker: Asker, token_id: str) -> None:
    """From now on one's own token opens nothing."""
    with store.writing(asker.school.id) as work:
        token = work.tokens.by_id(token_id)
        if token is None or token.person_id != asker.person_id:
            raise NotFoundError
        work.tokens.end(token_id, asker.now)
        work.commit()


def token_of(work: Work, secret: str, now: datetime) -> Token | None:
    """The token of a secret, if it works."""
    return work.tokens.by_secret_hash(_hash(secret), now)


def note_use(store: Store, school_id: str, token: Token, now: datetime) -> None:
    """Write down that a token was used, now and then."""
    if token.used_at is None or now - token.used_at >= SELDOM:
        with store.writing(school_id) as work:
            work.tokens.mark_used(token.id, now)
            work.commit()


def _faults(roles: frozenset[str], request: MakeToken) -> list[Fault]:
    faults = []
    if not ID.fullmatch(request.id):
        faults.append(Fault("no-id", N_("open the page again and repeat"), field="label"))
    if not request.label.strip():
        faults.append(Fault("no-label", N_("say what the token is for"), field="label"))
    if len(request.label) > LONGEST:
        faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, "label"))
    if not request.scopes or not request.scopes <= scopes_for(roles):
        faults.append(Fault("no-scope", N_("choose at least one of these"), field="scopes"))
    if request.days not in DAYS:
        faults.append(Fault("no-days", N_("choose how long it works"), field="days"))
    return faults


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()
