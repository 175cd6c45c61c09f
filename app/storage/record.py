"""The school's record: events numbered without gaps, and personal text that can be erased."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import update
from sqlmodel import select

from app.storage.canonical import canonical
from app.storage.rows import Rows
from app.storage.tables.records import EventCountRow, EventRow, PersonalTextRow


@dataclass(frozen=True, slots=True)
class Event:
    """`body` is the canonical JSON as stored."""

    number: int
    kind: str
    subject: str
    actor: str
    at: datetime
    body: bytes

    def content(self) -> dict[str, Any]:
        return json.loads(self.body)


class Record(Rows):
    def append(self, kind: str, subject: str, actor: str, at: datetime, body: Mapping[str, Any]) -> int:
        """Write an event and return its number: 1, 2, 3 … within the school, without gaps."""
        content = canonical(body)
        number = self.next_number()
        self.put_row(
            EventRow(
                school_id=self.school_id,
                number=number,
                kind=kind,
                subject=subject,
                actor=actor,
                at=at,
                body=content,
            )
        )
        return number

    def next_number(self) -> int:
        """The row stays locked to the end of the transaction (SQLite's writer has the whole file locked)."""
        query = self.where(EventCountRow).with_for_update().execution_options(populate_existing=True)
        count = self.session.exec(query).one()
        count.last_number += 1
        self.session.flush()
        return count.last_number

    def size(self) -> int:
        return self.session.exec(self.where(EventCountRow)).one().last_number

    def events(self, after: int = 0, limit: int | None = None) -> tuple[Event, ...]:
        """Events numbered above `after`, in order."""
        query = self.where(EventRow).where(EventRow.number > after).order_by(EventRow.number)
        return tuple(event_from(row) for row in self.session.exec(query.limit(limit)))

    def of_subject(self, subject: str) -> tuple[Event, ...]:
        return tuple(event_from(row) for row in self.many(EventRow, EventRow.number, subject=subject))

    def keep_words(self, id: str, person_id: str | None, words: str, salt: bytes) -> str:
        """Keep personal text; the SHA-256 (hex) of salt and UTF-8 text is what an event may hold."""
        self.put_row(
            PersonalTextRow(school_id=self.school_id, id=id, person_id=person_id, salt=salt, words=words)
        )
        return hashlib.sha256(salt + words.encode()).hexdigest()

    def words(self, id: str) -> str | None:
        """The text, or None if it was erased or never kept."""
        column = select(PersonalTextRow.words)
        return self.session.exec(column.filter_by(school_id=self.school_id, id=id)).first()

    def erase_words(self, person_id: str) -> int:
        """Erase a person's text, and its salt so that nobody can guess it from the hash; how many were erased."""
        change = update(PersonalTextRow).filter_by(school_id=self.school_id, person_id=person_id)
        kept = change.where(PersonalTextRow.words.is_not(None)).values(words=None, salt=b"")
        return self.session.execute(kept).rowcount


def event_from(row: EventRow) -> Event:
    return Event(row.number, row.kind, row.subject, row.actor, row.at, row.body)
