"""A person's tokens as their page lists them."""

from dataclasses import dataclass
from datetime import datetime

from app.clock import day_in
from app.permissions import scopes_for
from app.storage.tokens import Token
from app.storage.work import Work
from app.wording import tokens as words
from app.wording.dates import day_text
from app.wording.languages import Language


@dataclass(frozen=True, slots=True)
class TokenLine:
    """One token: what it is for, what it opens, until when, and when it was last used."""

    id: str
    label: str
    opens: str
    until: str
    used: str
    works: bool


def token_lines(work: Work, person_id: str, now: datetime, zone: str, language: Language) -> tuple[TokenLine, ...]:
    """Those that work first, then those that have ended, each the newest first."""
    lines = [_line(one, now, zone, language) for one in work.tokens.of_person(person_id)]
    return tuple(sorted(lines, key=lambda line: not line.works))


def scope_choices(roles: frozenset[str], language: Language) -> tuple[tuple[str, str], ...]:
    """The scopes that somebody with these roles can give, in words."""
    own = scopes_for(roles)
    return tuple((scope, language(text)) for scope, text in words.SCOPES.items() if scope in own)


def _line(token: Token, now: datetime, zone: str, language: Language) -> TokenLine:
    def day(moment: datetime) -> str:
        return day_text(day_in(moment, zone), language.locale)

    works = token.ends_at > now
    until = language(words.UNTIL if works else words.ENDED, day=day(token.ends_at))
    used = language(words.USED, day=day(token.used_at)) if token.used_at else language(words.NEVER)
    opens = language.listed([language(text) for scope, text in words.SCOPES.items() if scope in token.scopes])
    return TokenLine(token.id, token.label, opens, until, used, works)
