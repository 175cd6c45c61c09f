"""The school's record: events numbered without gaps, the tree of hashes over them, and personal text that can be erased."""

import hashlib
import hmac
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import bindparam, text, update
from sqlmodel import select

from app.storage.canonical import canonical
from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.records import EventCountRow, EventRow, PersonalSaltRow, PersonalTextRow, RecordNodeRow
from assessments.records.receipt import Recorded
from assessments.records.tree import grown

# The very bytes of each column, whatever was made of them, with their types where the database lets them vary.
STORED = {
    "sqlite": "select cast(number as blob), cast(kind as blob), cast(subject as blob), cast(actor as blob),"
    " cast(at as blob), cast(body as blob), typeof(number) || ' ' || typeof(kind) || ' ' || typeof(subject) || ' '"
    " || typeof(actor) || ' ' || typeof(at) || ' ' || typeof(body)"
    " from event where school_id = :school order by number",
    "postgresql": "select convert_to(number::text, 'UTF8'), convert_to(kind, 'UTF8'), convert_to(subject, 'UTF8'),"
    " convert_to(actor, 'UTF8'), convert_to(to_char(at at time zone 'UTC', 'YYYY-MM-DD HH24:MI:SS.US'), 'UTF8'),"
    " body, 'integer text text text text blob' from event where school_id = :school order by number",
}
NODE, COUNT = RecordNodeRow.__table__, EventCountRow.__table__
ONE_NODE = (
    NODE.select()
    .with_only_columns(NODE.c.hash)
    .where(
        NODE.c.school_id == bindparam("school"), NODE.c.level == bindparam("level"), NODE.c.place == bindparam("place")
    )
)
ONE_MORE = COUNT.update().where(COUNT.c.school_id == bindparam("school")).values(last_number=COUNT.c.last_number + 1)
LAST_NUMBER = COUNT.select().with_only_columns(COUNT.c.last_number).where(COUNT.c.school_id == bindparam("school"))
TYPES = "integer text text text text blob"


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

    def recorded(self, school: str) -> Recorded:
        """As it is hashed into the tree."""
        return Recorded(school, self.number, self.kind, self.subject, self.actor, moment(self.at), self.body)


def moment(at: datetime) -> str:
    """A moment as the tree hashes it."""
    return at.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


class Record(Collection):
    def append(self, kind: str, subject: str, actor: str, at: datetime, body: Mapping[str, Any]) -> int:
        """Write an event and return its number: 1, 2, 3 … within the school, without gaps."""
        event = Event(self._next_number(), kind, subject, actor, at, canonical(body))
        self._insert(EventRow, {"school_id": self._school} | fields_of(event))
        leaf = event.recorded(self._school).leaf
        names = ("school_id", "level", "place", "hash")
        nodes = [(self._school, *node) for node in grown(self.node, event.number - 1, leaf)]
        self._insert(RecordNodeRow, *(dict(zip(names, node, strict=True)) for node in nodes))
        return event.number

    def node(self, level: int, place: int) -> bytes:
        """A hash of the tree."""
        key = {"school": self._school, "level": level, "place": place}
        return self._session.connection().execute(ONE_NODE, key).scalar_one()

    def nodes(self) -> dict[tuple[int, int], bytes]:
        """Every hash of the tree, by level and place."""
        query = select(RecordNodeRow.level, RecordNodeRow.place, RecordNodeRow.hash)
        rows = self._session.exec(query.where(RecordNodeRow.school_id == self._school))
        return {(level, place): found for level, place, found in rows}

    def stored(self) -> Iterator[tuple[int, Recorded | None]]:
        """Every event as the database has it, in order, with its place from 1; None where it can't be one we wrote."""
        statement = text(STORED[self._session.get_bind().dialect.name])
        rows = self._session.execute(statement, {"school": self._school})
        for place, (*columns, types) in enumerate(rows, start=1):
            yield place, _as_recorded(self._school, columns) if types == TYPES else None

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
        """Keep personal text; gives what an event may hold of it: the SHA-256 (hex) of a salt and the UTF-8 text.

        The salt is made from the person's own and the id of the text. `salt` becomes the person's where there is none
        yet, and is the text's own where it is nobody's.
        """
        own = salt if person_id is None else b""
        if person_id is not None and self._session.get(PersonalSaltRow, (self._school, person_id)) is None:
            self._add(PersonalSaltRow(school_id=self._school, person_id=person_id, salt=salt))
        row = PersonalTextRow(school_id=self._school, id=words_id, person_id=person_id, salt=own, words=words)
        self._add(row)
        return self._hash_of(row)

    def hashes_of_words(self) -> dict[str, str]:
        """What the events should hold of every text that is not erased, by its id."""
        query = select(PersonalTextRow).where(PersonalTextRow.school_id == self._school)
        rows = self._session.exec(query.where(PersonalTextRow.words.is_not(None)))
        return {row.id: self._hash_of(row) for row in rows}

    def words(self, words_id: str) -> str | None:
        """The text, or None if it was erased or never kept."""
        query = select(PersonalTextRow.words)
        return self._session.exec(
            query.where(PersonalTextRow.school_id == self._school, PersonalTextRow.id == words_id)
        ).first()

    def erase_words(self, person_id: str) -> int:
        """Erase a person's text, and the salts so that nobody can guess it from a hash; how many were erased."""
        own = (PersonalTextRow.school_id == self._school) & (PersonalTextRow.person_id == person_id)
        change = update(PersonalTextRow).where(own, PersonalTextRow.words.is_not(None)).values(words=None, salt=b"")
        erased = self._session.execute(change).rowcount
        salt = self._session.get(PersonalSaltRow, (self._school, person_id))
        if salt is not None:
            self._session.delete(salt)
            self._session.flush()
        return erased

    def _hash_of(self, row: PersonalTextRow) -> str:
        """A text whose person's salt is gone hashes to nothing that was ever recorded."""
        salt = row.salt
        if not salt and row.person_id is not None:
            own = self._session.get(PersonalSaltRow, (self._school, row.person_id))
            salt = hmac.digest(own.salt if own else b"", row.id.encode(), "sha256")
        return hashlib.sha256(salt + row.words.encode()).hexdigest()

    def _next_number(self) -> int:
        """The row stays locked to the end of the transaction (a writer on SQLite has the whole file)."""
        connection = self._session.connection()
        connection.execute(ONE_MORE, {"school": self._school})
        return connection.execute(LAST_NUMBER, {"school": self._school}).scalar_one()

    def _events(self, query) -> tuple[Event, ...]:  # noqa: ANN001 - a select of EventRow
        return tuple(value_of(Event, row) for row in self._session.exec(query.order_by(EventRow.number)))


def _as_recorded(school: str, columns: list[bytes]) -> Recorded | None:
    """An event of stored bytes. The moment is written again as it was hashed, letter by letter, so no change is lost."""
    body = columns.pop()
    try:
        number, kind, subject, actor, at = (column.decode() for column in columns)
    except UnicodeDecodeError:
        return None
    return Recorded(school, int(number), kind, subject, actor, at.replace("T", "?").replace(" ", "T", 1) + "Z", body)
