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
from app.storage.collection import Collection, value_of
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


class Record(Collection):
    def append(self, kind: str, subject: str, actor: str, at: datetime, body: Mapping[str, Any]) -> int:
        """Write an event and return its number: 1, 2, 3 … within the school, without gaps."""
        content = canonical(body)
        number = self._next_number()
        self._add(
            EventRow(
                school_id=self._school,
                number=number,
                kind=kind,
                subject=subject,
                actor=actor,
                at=at,
                body=content,
            )
        )
        return number

    def size(self) -> int:
        """How many events there are, which is the last one's number."""
        query = select(EventCountRow.last_number).where(EventCountRow.school_id == self._school)
        return self._session.exec(query).one()

    def events(self, after: int = 0, most: int | None = None) -> tuple[Event, ...]:
        """Events numbered above `after`, in order, at most `most`."""
        query = select(EventRow).where(EventRow.school_id == self._school, EventRow.number > after)
        return self._events(query.limit(most))

    def of_subject(self, subject: str) -> tuple[Event, ...]:
        """Everything recorded about one subject, in order."""
        return self._events(select(EventRow).where(EventRow.school_id == self._school, EventRow.subject == subject))

    def newest_of(self, subjects: list[str], most: int) -> tuple[Event, ...]:
        """What was recorded about any of these subjects, newest first, at most `most`."""
        query = select(EventRow).where(EventRow.school_id == self._school, EventRow.subject.in_(subjects))
        newest = query.order_by(EventRow.number.desc()).limit(most)
        return tuple(value_of(Event, row) for row in self._session.exec(newest))

    def keep_words(self, words_id: str, person_id: str | None, words: str, salt: bytes) -> str:
        """Keep personal text; the SHA-256 (hex) of salt and UTF-8 text is what an event may hold."""
        self._add(PersonalTextRow(school_id=self._school, id=words_id, person_id=person_id, salt=salt, words=words))
        return hashlib.sha256(salt + words.encode()).hexdigest()

    def words(self, words_id: str) -> str | None:
        """The text, or None if it was erased or never kept."""
        query = select(PersonalTextRow.words)
        return self._session.exec(
            query.where(PersonalTextRow.school_id == self._school, PersonalTextRow.id == words_id)
        ).first()

    def erase_words(self, person_id: str) -> int:
        """Erase a person's text, and its salt so that nobody can guess it from the hash; how many were erased."""
        own = (PersonalTextRow.school_id == self._school) & (PersonalTextRow.person_id == person_id)
        change = update(PersonalTextRow).where(own, PersonalTextRow.words.is_not(None)).values(words=None, salt=b"")
        return self._session.execute(change).rowcount

    def _next_number(self) -> int:
        """The row stays locked to the end of the transaction (a writer on SQLite has the whole file)."""
        query = select(EventCountRow).where(EventCountRow.school_id == self._school).with_for_update()
        count = self._session.exec(query.execution_options(populate_existing=True)).one()
        count.last_number += 1
        self._session.flush()
        return count.last_number

    def _events(self, query) -> tuple[Event, ...]:  # noqa: ANN001 - a select of EventRow
        return tuple(value_of(Event, row) for row in self._session.exec(query.order_by(EventRow.number)))
