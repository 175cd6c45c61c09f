"""Every row of a school out of a database and into another, by the tables themselves, so that none is forgotten."""

import base64
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, date, datetime
from typing import Any

from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Column, Connection, Engine, MetaData, Table, func, insert, select
from sqlalchemy.exc import SQLAlchemyError
from sqlmodel import SQLModel

from app.storage.engine import begin_writing
from app.storage.migrating import FOLDER, migrate
from curriculum.faults import ThroughlineError

# Gone in a quarter of an hour, or of no use at another address.
LEFT_OUT = frozenset({"sign_in", "sign_in_attempt", "spot_code"})
AT_ONCE = 500
Row = Mapping[str, Any]


class RowsError(ThroughlineError):
    """Rows that a database can't take; says why."""


@contextmanager
def taking_rows() -> Iterator[None]:
    """Whatever a database says of rows it can't take comes out as `RowsError`."""
    try:
        yield
    except (SQLAlchemyError, ValueError, TypeError) as error:
        raise RowsError(str(error).partition("\n")[0]) from error


def revision_of(engine: Engine) -> str:
    """The shape of a database: the number of its last migration."""
    with engine.connect() as connection:
        return MigrationContext.configure(connection).get_current_revision() or ""


def known_revisions() -> frozenset[str]:
    """Every shape that this version can bring up to date."""
    return frozenset(one.revision for one in ScriptDirectory(str(FOLDER)).walk_revisions())


def table_names() -> tuple[str, ...]:
    """Every table that goes into an archive, each after those it refers to."""
    return tuple(table.name for table in SQLModel.metadata.sorted_tables if table.name not in LEFT_OUT)


def rows_out(connection: Connection, name: str, school_id: str) -> Iterator[Row]:
    """The rows of one school as plain data: moments and days as ISO 8601, bytes as base64; in the order of their keys."""
    table = SQLModel.metadata.tables[name]
    query = select(table).where(_of_school(table, school_id)).order_by(*table.primary_key.columns)
    for row in connection.execute(query.execution_options(yield_per=AT_ONCE)).mappings():
        yield {column: as_plain(value) for column, value in row.items()}


def rows_in(engine: Engine, tables: Iterable[tuple[str, Iterable[Row]]]) -> dict[str, int]:
    """Fill tables as a database of any shape has them; how many rows each got. All of it or nothing."""
    known = MetaData()
    known.reflect(engine)
    counted: dict[str, int] = {}
    with taking_rows(), begin_writing(engine) as connection:
        for name, rows in tables:
            counted[name] = _fill(connection, known.tables[name], rows)
    return counted


def bring_up_to_date(engine: Engine) -> None:
    """Give a filled database today's shape."""
    with taking_rows():
        migrate(engine)


def has_school(engine: Engine, school_id: str, slug: str) -> bool:
    """Whether there is one with this id or short name."""
    school = SQLModel.metadata.tables["school"]
    query = select(func.count()).select_from(school).where((school.c.id == school_id) | (school.c.slug == slug))
    with engine.connect() as connection:
        return bool(connection.scalar(query))


def copy_school(source: Engine, target: Engine, school_id: str) -> None:
    """Every row of a school from one database of today's shape into another. All of it or nothing."""
    with taking_rows(), source.connect() as reading, begin_writing(target) as connection:
        for name in table_names():
            table = SQLModel.metadata.tables[name]
            found = reading.execute(
                select(table).where(_of_school(table, school_id)).execution_options(yield_per=AT_ONCE)
            )
            for some in found.mappings().partitions(AT_ONCE):
                connection.execute(insert(table), [dict(row) for row in some])


def _of_school(table: Table, school_id: str):  # noqa: ANN202 - a condition
    return (table.c.id if table.name == "school" else table.c.school_id) == school_id


def _fill(connection: Connection, table: Table, rows: Iterable[Row]) -> int:
    counted, waiting = 0, []
    for row in rows:
        waiting.append({name: _typed(table.c[name], value) for name, value in row.items()})
        if len(waiting) == AT_ONCE:
            connection.execute(insert(table), waiting)
            counted, waiting = counted + len(waiting), []
    if waiting:
        connection.execute(insert(table), waiting)
    return counted + len(waiting)


def as_plain(value: Any) -> Any:  # noqa: ANN401 - what a column holds
    """As JSON has it."""
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    if isinstance(value, date):
        return value.isoformat()
    return base64.b64encode(value).decode() if isinstance(value, bytes) else value


def _typed(column: Column, value: Any) -> Any:  # noqa: ANN401
    """As the column wants it; raises `ValueError` or `TypeError` for what it can't hold."""
    kind = column.type.python_type
    if value is None or kind in (int, float, str):
        if value is not None and kind is str and not isinstance(value, str):
            raise TypeError(f"{column.name} must be a text")
        if value is not None and kind is int and type(value) is not int:
            raise TypeError(f"{column.name} must be a whole number")
        return value
    if kind is datetime:
        # A reflected column does not know of time zones: SQLite keeps UTC.
        return datetime.fromisoformat(value).astimezone(UTC).replace(tzinfo=None)
    if kind is date:
        return date.fromisoformat(value)
    if kind is bytes:
        return base64.b64decode(value, validate=True)
    return kind(value)
