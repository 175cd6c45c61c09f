"""Facts stay: the tables of facts, as migrated, refuse every way of changing or removing a row."""

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from app.storage.engine import open_engine
from app.storage.tables import APPEND_ONLY
from app.storage.work import Store
from tests.app.conftest import HALDEN
from tests.app.storage.filling import fill


@pytest.fixture(scope="module")
def filled(database_urls):
    """One for all of these tests: each is refused, and what is refused is rolled back."""
    url = database_urls.ready()
    engine = open_engine(url)
    Store(engine).add_school(HALDEN)
    fill(engine, APPEND_ONLY)
    yield engine
    engine.dispose()
    database_urls.drop(url)


def refuses(engine, statement):
    with pytest.raises(DBAPIError, match="keeps facts"), engine.begin() as connection:
        connection.execute(text(statement))


@pytest.mark.parametrize("table", APPEND_ONLY)
def test_a_fact_is_not_changed(filled, table):
    refuses(filled, f"update {table} set school_id = school_id")


@pytest.mark.parametrize("table", APPEND_ONLY)
def test_a_fact_is_not_removed(filled, table):
    refuses(filled, f"delete from {table}")


@pytest.mark.parametrize("table", APPEND_ONLY)
def test_a_fact_is_not_replaced_or_emptied_away(filled, table):
    if filled.dialect.name == "sqlite":
        refuses(filled, f"insert or replace into {table} select * from {table}")
    else:
        refuses(filled, f"truncate {table} cascade")


@pytest.mark.parametrize("table", APPEND_ONLY)
def test_every_table_of_facts_was_filled_for_these_tests(filled, table):
    with filled.connect() as connection:
        assert connection.scalar(text(f"select count(*) from {table}")) == 1
