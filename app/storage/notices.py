"""Safety notices that reach every edition at once, and who has read them."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, value_of
from app.storage.tables.notices import NoticeReadRow, SafetyNoticeRow


@dataclass(frozen=True, slots=True)
class SafetyNotice:
    """`about` is the id of an exercise or an apparatus, or "" for everything; it stands until `ended_at`."""

    id: str
    about: str
    text: str
    issued_by: str
    issued_at: datetime
    ended_at: datetime | None = None
    end_reason: str = ""


class Notices(Collection):
    def add(self, notice: SafetyNotice) -> None:
        values = {name: getattr(notice, name) for name in notice.__dataclass_fields__}
        self._add(SafetyNoticeRow(school_id=self._school, **values))

    def by_id(self, notice_id: str) -> SafetyNotice | None:
        row = self._session.get(SafetyNoticeRow, (self._school, notice_id))
        return value_of(SafetyNotice, row) if row else None

    def all(self) -> list[SafetyNotice]:
        """Every notice, the newest first."""
        rows = self._session.exec(select(SafetyNoticeRow).where(SafetyNoticeRow.school_id == self._school))
        return sorted((value_of(SafetyNotice, row) for row in rows), key=lambda one: one.issued_at, reverse=True)

    def standing(self) -> list[SafetyNotice]:
        """Notices that are not ended, the newest first."""
        return [one for one in self.all() if one.ended_at is None]

    def unread(self, person_id: str) -> list[SafetyNotice]:
        """Standing notices that a person has not read yet, the oldest first."""
        read = select(NoticeReadRow.notice_id).where(
            NoticeReadRow.school_id == self._school, NoticeReadRow.person_id == person_id
        )
        query = select(SafetyNoticeRow).where(
            SafetyNoticeRow.school_id == self._school,
            SafetyNoticeRow.ended_at.is_(None),
            SafetyNoticeRow.id.not_in(read),
        )
        return [value_of(SafetyNotice, row) for row in self._session.exec(query.order_by(SafetyNoticeRow.issued_at))]

    def mark_read(self, notice_id: str, person_id: str, at: datetime) -> None:
        """Note the first reading; later ones change nothing."""
        key = (self._school, notice_id, person_id)
        if self._session.get(NoticeReadRow, key) is None:
            self._add(NoticeReadRow(school_id=self._school, notice_id=notice_id, person_id=person_id, read_at=at))

    def readers(self) -> dict[str, dict[str, datetime]]:
        """Who has read each notice, and when."""
        found: dict[str, dict[str, datetime]] = {}
        for row in self._session.exec(select(NoticeReadRow).where(NoticeReadRow.school_id == self._school)):
            found.setdefault(row.notice_id, {})[row.person_id] = row.read_at
        return found

    def end(self, notice_id: str, reason: str, at: datetime) -> None:
        row = self._session.get(SafetyNoticeRow, (self._school, notice_id))
        row.ended_at, row.end_reason = at, reason
        self._add(row)
