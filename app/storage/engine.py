"""Opening the database: SQLite or PostgreSQL, with everything that makes them behave alike."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url

# https://www.sqlite.org/pragma.html; FULL because a signature must survive a power cut.
PRAGMAS = (
    "journal_mode=WAL",
    "synchronous=FULL",
    "foreign_keys=ON",
    "busy_timeout=10000",
    "recursive_triggers=ON",
    "temp_store=MEMORY",
)


def open_engine(url: str) -> Engine:
    """An engine for `sqlite:///file` or `postgresql://…`; a folder that an SQLite file needs is made."""
    address = make_url(url)
    if address.get_backend_name() == "sqlite":
        return open_sqlite(address)
    if address.drivername == "postgresql":
        address = address.set(drivername="postgresql+psycopg")
    return create_engine(address, pool_pre_ping=True, pool_size=10, max_overflow=10)


def open_sqlite(address: URL) -> Engine:
    if address.database and address.database != ":memory:":
        Path(address.database).parent.mkdir(parents=True, exist_ok=True)
    engine = create_engine(address)
    event.listen(engine, "connect", prepare)
    event.listen(engine, "begin", begin)
    return engine


def prepare(raw: sqlite3.Connection, _record: object) -> None:
    """The driver's own transactions are switched off: it would commit before a change of tables."""
    raw.isolation_level = None
    for pragma in PRAGMAS:
        raw.execute(f"PRAGMA {pragma}")


def begin(connection: Connection) -> None:
    writing = connection.get_execution_options().get("writing", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")


@contextmanager
def begin_writing(engine: Engine) -> Iterator[Connection]:
    """One transaction that writes: kept at its end, undone where anything is raised."""
    with engine.execution_options(writing=True).begin() as connection:
        yield connection


def is_sqlite(engine: Engine) -> bool:
    return engine.dialect.name == "sqlite"
