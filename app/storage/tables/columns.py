"""Column types that behave alike on both databases, and the keys every table shares."""

from datetime import UTC, datetime

from sqlalchemy import DateTime, ForeignKeyConstraint
from sqlalchemy.engine import Dialect
from sqlalchemy.types import TypeDecorator
from sqlmodel import Field


class Instant(TypeDecorator[datetime]):
    """A moment in UTC; SQLite forgets the zone, so it is put back here."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is not None and value.tzinfo is None:
            raise ValueError("a moment needs its time zone")
        return None if value is None else value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


def of_school():  # noqa: ANN201 - SQLModel's Field has no public type
    """The first half of every key: the school's id."""
    return Field(primary_key=True, foreign_key="school.id", max_length=36)


def own_id():  # noqa: ANN201
    """The second half of a key: an id that a client may have made."""
    return Field(primary_key=True, max_length=36)


def refers(column: str, table: str, target: str = "id") -> ForeignKeyConstraint:
    """A reference within the same school."""
    return ForeignKeyConstraint(["school_id", column], [f"{table}.school_id", f"{table}.{target}"])
