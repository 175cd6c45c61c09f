"""Tokens with which a person's own programs ask, kept as hashes of their secrets."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of
from app.storage.tables.tokens import TokenRow


@dataclass(frozen=True, slots=True)
class Token:
    """One token; works until `ends_at`, for what its scopes open and its person may do."""

    id: str
    secret_hash: str
    person_id: str
    label: str
    scopes: frozenset[str]
    made_at: datetime
    ends_at: datetime
    used_at: datetime | None = None


class Tokens(Collection):
    def add(self, token: Token) -> None:
        fields = fields_of(token) | {"scopes": " ".join(sorted(token.scopes))}
        self._add(TokenRow(school_id=self._school, **fields))

    def by_id(self, token_id: str) -> Token | None:
        row = self._session.get(TokenRow, (self._school, token_id))
        return _token(row) if row else None

    def by_secret_hash(self, secret_hash: str, now: datetime) -> Token | None:
        """The token of a secret, unless it has ended."""
        query = select(TokenRow).where(TokenRow.school_id == self._school, TokenRow.secret_hash == secret_hash)
        row = self._session.exec(query).first()
        return _token(row) if row and row.ends_at > now else None

    def of_person(self, person_id: str) -> list[Token]:
        """Every token of a person, the newest first, ended ones too."""
        query = select(TokenRow).where(TokenRow.school_id == self._school, TokenRow.person_id == person_id)
        return sorted(map(_token, self._session.exec(query)), key=lambda one: (one.made_at, one.id), reverse=True)

    def end(self, token_id: str, at: datetime) -> None:
        row = self._session.get(TokenRow, (self._school, token_id))
        row.ends_at = min(row.ends_at, at)
        self._add(row)

    def mark_used(self, token_id: str, at: datetime) -> None:
        row = self._session.get(TokenRow, (self._school, token_id))
        row.used_at = at
        self._add(row)


def _token(row: TokenRow) -> Token:
    scopes = frozenset(row.scopes.split())
    return Token(row.id, row.secret_hash, row.person_id, row.label, scopes, row.made_at, row.ends_at, row.used_at)
