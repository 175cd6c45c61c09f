"""Who is signed in, kept as hashes of secrets, and failed attempts."""

import secrets
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import delete, func
from sqlmodel import select

from app.storage.collection import Collection
from app.storage.tables.people import SignInAttemptRow, SignInRow


@dataclass(frozen=True, slots=True)
class SignIn:
    """One signed-in device."""

    person_id: str
    started_at: datetime
    ends_at: datetime


class SignIns(Collection):
    def start(self, token_hash: str, person_id: str, now: datetime, ends_at: datetime) -> None:
        self._add(
            SignInRow(
                school_id=self._school, token_hash=token_hash, person_id=person_id, started_at=now, ends_at=ends_at
            )
        )

    def by_token_hash(self, token_hash: str, now: datetime) -> SignIn | None:
        """The sign-in of a secret, unless it has ended."""
        row = self._session.get(SignInRow, (self._school, token_hash))
        return SignIn(row.person_id, row.started_at, row.ends_at) if row and row.ends_at > now else None

    def end(self, token_hash: str) -> None:
        self._session.execute(
            delete(SignInRow).where(SignInRow.school_id == self._school, SignInRow.token_hash == token_hash)
        )

    def end_all_of(self, person_id: str) -> None:
        self._session.execute(
            delete(SignInRow).where(SignInRow.school_id == self._school, SignInRow.person_id == person_id)
        )

    def note_failed(self, who: str, at: datetime) -> None:
        self._add(SignInAttemptRow(school_id=self._school, id=secrets.token_hex(16), who=who, at=at))

    def failed_attempts_since(self, who: str, since: datetime) -> int:
        query = (
            select(func.count())
            .select_from(SignInAttemptRow)
            .where(
                SignInAttemptRow.school_id == self._school, SignInAttemptRow.who == who, SignInAttemptRow.at >= since
            )
        )
        return self._session.exec(query).one()
