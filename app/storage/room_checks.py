"""Signed checks of rooms; a later one stands beside an earlier one."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.room_checks import RoomCheckRow


@dataclass(frozen=True, slots=True)
class SignedCheck:
    id: str
    day: date
    room: str
    content: str
    signed_by: str
    signed_at: datetime


class RoomChecks(Collection):
    def add(self, one: SignedCheck) -> None:
        self._add(RoomCheckRow(school_id=self._school, **fields_of(one)))

    def by_id(self, check_id: str) -> SignedCheck | None:
        row = self._session.get(RoomCheckRow, (self._school, check_id))
        return value_of(SignedCheck, row) if row else None

    def of_day(self, day: date) -> list[SignedCheck]:
        """The checks of a day, the first first."""
        query = select(RoomCheckRow).where(RoomCheckRow.school_id == self._school, RoomCheckRow.day == day)
        found = (value_of(SignedCheck, row) for row in self._session.exec(query))
        return sorted(found, key=lambda one: (one.signed_at, one.id))
