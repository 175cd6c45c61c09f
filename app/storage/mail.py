"""Mail written by the school."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.records import OutgoingMailRow


@dataclass(frozen=True, slots=True)
class OutgoingMail:
    """One mail, as it was written."""

    id: str
    to_address: str
    to_name: str
    subject: str
    words: str
    made_at: datetime


class Mail(Collection):
    def add(self, mail: OutgoingMail) -> None:
        self._add(OutgoingMailRow(school_id=self._school, **fields_of(mail)))

    def newest(self, most: int) -> list[OutgoingMail]:
        query = (
            select(OutgoingMailRow)
            .where(OutgoingMailRow.school_id == self._school)
            .order_by(OutgoingMailRow.made_at.desc(), OutgoingMailRow.id)
            .limit(most)
        )
        return [value_of(OutgoingMail, row) for row in self._session.exec(query)]
