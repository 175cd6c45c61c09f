"""The school's record: numbered events and the tree over them, erasable personal text, and mail waiting to go out."""

from datetime import datetime

from sqlalchemy import Index, LargeBinary
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id


class EventCountRow(SQLModel, table=True):
    """One row a school, locked while a number is taken, so that numbers have no gaps."""

    __tablename__ = "event_count"
    school_id: str = of_school()
    last_number: int = 0


class EventRow(SQLModel, table=True):
    """`body` is the event's canonical bytes; personal text is in it only as a salted hash."""

    __tablename__ = "event"
    school_id: str = of_school()
    number: int = Field(primary_key=True)
    kind: str = Field(max_length=40)
    subject: str = Field(max_length=36, index=True)
    actor: str = Field(max_length=80)
    at: datetime = Field(sa_type=Instant)
    body: bytes = Field(sa_type=LargeBinary)


class RecordNodeRow(SQLModel, table=True):
    """A hash of the tree over the events: `level` 0 is the leaves, `place` counts from 0."""

    __tablename__ = "record_node"
    school_id: str = of_school()
    level: int = Field(primary_key=True)
    place: int = Field(primary_key=True)
    hash: bytes = Field(sa_type=LargeBinary)


class PersonalSaltRow(SQLModel, table=True):
    """What a person's words are hashed with; without it nobody can guess them from their hashes."""

    __tablename__ = "personal_salt"
    school_id: str = of_school()
    person_id: str = own_id()
    salt: bytes = Field(sa_type=LargeBinary)


class PersonalTextRow(SQLModel, table=True):
    """Words about or by a person; erasing sets `words` to null and leaves every proof whole.

    `salt` is the text's own where it is nobody's, or was kept before people had theirs; else it is empty.
    """

    __tablename__ = "personal_text"
    school_id: str = of_school()
    id: str = own_id()
    person_id: str | None = Field(default=None, max_length=36, index=True)
    salt: bytes = Field(sa_type=LargeBinary)
    words: str | None = None


class OutgoingMailRow(SQLModel, table=True):
    """`next_at` is when it is tried again; while it is being sent, when that is taken to have failed."""

    __tablename__ = "outgoing_mail"
    __table_args__ = (Index(None, "school_id", "state", "next_at"),)
    school_id: str = of_school()
    id: str = own_id()
    to_address: str
    to_name: str
    subject: str
    words: str
    made_at: datetime = Field(sa_type=Instant)
    state: str = Field(default="waiting", max_length=20, sa_column_kwargs={"server_default": "given_up"})
    tries: int = Field(default=0, sa_column_kwargs={"server_default": "0"})
    next_at: datetime | None = Field(default=None, sa_type=Instant)
    sent_at: datetime | None = Field(default=None, sa_type=Instant)
    trouble: str = Field(default="", sa_column_kwargs={"server_default": ""})
