"""Kept standings: a result and the fingerprint of everything it follows from."""

from dataclasses import dataclass

from sqlmodel import select

from app.storage.collection import Collection
from app.storage.tables.ledger import StandingRow


@dataclass(frozen=True, slots=True)
class KeptStanding:
    fingerprint: str
    result: str


class Standings(Collection):
    def get(self, enrolment_id: str) -> KeptStanding | None:
        row = self._session.get(StandingRow, (self._school, enrolment_id))
        return KeptStanding(row.fingerprint, row.result) if row else None

    def all(self) -> dict[str, KeptStanding]:
        """What is kept of every enrolment, by its id."""
        columns = StandingRow.enrolment_id, StandingRow.fingerprint, StandingRow.result
        rows = self._session.exec(select(*columns).where(StandingRow.school_id == self._school))
        return {enrolment_id: KeptStanding(*kept) for enrolment_id, *kept in rows}

    def put(self, enrolment_id: str, fingerprint: str, result: str) -> None:
        row = self._session.get(StandingRow, (self._school, enrolment_id)) or StandingRow(
            school_id=self._school, enrolment_id=enrolment_id, fingerprint="", result=""
        )
        row.fingerprint, row.result = fingerprint, result
        self._add(row)
