"""Facts stay: the tables of facts, as migrated, refuse every way of changing or removing a row."""

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from app.storage.tables import APPEND_ONLY
from tests.app.storage.filling import fill


@pytest.fixture
def filled(store):
    fill(store.engine, APPEND_ONLY)
    return store.engine


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
