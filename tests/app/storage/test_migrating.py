"""Migrations: up, down, up from a filled older state; and the tables they make are the tables in use."""

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Engine, MetaData, inspect, text
from sqlmodel import SQLModel

from app.storage.engine import open_engine
from app.storage.migrating import FOLDER, migrate, migrate_back
from tests.app.storage.filling import add_row

OLDER = sorted(path.name[:4] for path in (FOLDER / "versions").glob("0*.py"))[:-1]

SCHOOL = text("insert into school (id, slug, name, time_zone, locale) values ('a', 'a', 'A', 'Europe/Oslo', 'en')")
EVENT = text(
    "insert into event (school_id, number, kind, subject, actor, at, body)"
    " values ('a', 1, 'k', 's', 'p', '2026-01-02 03:04:05', 'x')"
)


@pytest.fixture
def engine(database_urls):
    opened = open_engine(database_urls.empty())
    yield opened
    opened.dispose()


def tables_in(engine: Engine) -> set[str]:
    return set(inspect(engine).get_table_names()) - {"alembic_version"}


def test_migrating_makes_every_table_in_use(engine):
    migrate(engine)
    assert tables_in(engine) == set(SQLModel.metadata.tables)


def test_the_tables_made_are_the_tables_in_use_to_the_last_column(engine):
    migrate(engine)
    with engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), SQLModel.metadata) == []


def test_a_table_in_use_that_no_migration_makes_is_noticed(engine):
    migrate(engine)
    with engine.begin() as connection:
        connection.execute(text("drop table standing"))
        assert compare_metadata(MigrationContext.configure(connection), SQLModel.metadata) != []


def test_migrating_twice_changes_nothing(engine):
    migrate(engine)
    migrate(engine)
    assert tables_in(engine) == set(SQLModel.metadata.tables)


def test_migrating_back_leaves_nothing(engine):
    migrate(engine)
    migrate_back(engine, "base")
    assert tables_in(engine) == set()


def test_migrating_works_from_any_folder(engine, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    migrate(engine)
    assert "event" in tables_in(engine)


def test_a_filled_older_database_keeps_its_rows_and_then_guards_them(engine):
    migrate(engine, "0001")
    with engine.begin() as connection:
        connection.execute(SCHOOL)
        connection.execute(EVENT)
    migrate(engine)
    with engine.begin() as connection:
        assert connection.scalar(text("select count(*) from event")) == 1
    with pytest.raises(Exception, match="keeps facts"), engine.begin() as connection:
        connection.execute(text("delete from event"))


def test_migrating_back_to_the_first_tables_keeps_the_rows(engine):
    migrate(engine)
    with engine.begin() as connection:
        connection.execute(SCHOOL)
    migrate_back(engine, "0001")
    with engine.begin() as connection:
        assert connection.scalar(text("select count(*) from school")) == 1


@pytest.mark.parametrize("revision", OLDER)
def test_a_database_with_a_row_in_every_table_comes_up_from_any_older_state(engine, revision):
    migrate(engine, revision)
    older = MetaData()
    older.reflect(engine)
    with engine.begin() as connection:
        for table in older.sorted_tables:
            if table.name != "alembic_version":
                add_row(connection, table)
    before = rows_in(engine, older)
    migrate(engine)
    assert rows_in(engine, older) == before
    assert all(before.values())


def rows_in(engine: Engine, metadata: MetaData) -> dict[str, int]:
    """How many rows each of these tables has."""
    with engine.connect() as connection:
        return {
            name: connection.scalar(text(f'select count(*) from "{name}"'))
            for name in metadata.tables
            if name != "alembic_version"
        }
