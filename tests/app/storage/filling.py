"""One row in a table and in all that it refers to, made from the columns alone."""

from datetime import UTC, date, datetime

from sqlalchemy import Column, Connection, Engine, Table
from sqlmodel import SQLModel

BY_TYPE = {
    str: "x",
    int: 1,
    float: 0.5,
    bool: True,
    bytes: b"x",
    date: date(2026, 1, 2),
    datetime: datetime(2026, 1, 2, tzinfo=UTC),
}


def fill(engine: Engine, names: tuple[str, ...]) -> None:
    """Every id is `x` but the school's, which is `halden` and stands already."""
    tables = SQLModel.metadata.tables
    wanted = set(names)
    for table in reversed(SQLModel.metadata.sorted_tables):
        if table.name in wanted:
            wanted |= {key.referred_table.name for key in table.foreign_key_constraints}
    with engine.begin() as connection:
        for table in SQLModel.metadata.sorted_tables:
            if table.name in wanted - {"school"}:
                add_row(connection, tables[table.name])


def add_row(connection: Connection, table: Table) -> None:
    row = {column.name: BY_TYPE[stored_type(column)] for column in table.columns if not column.nullable}
    own = {"id": "halden"} if table.name == "school" else {"school_id": "halden"}
    connection.execute(table.insert().values(row | own))


def stored_type(column: Column) -> type:
    """A decorating type does not say what it holds, but what it decorates does."""
    return getattr(column.type, "impl_instance", column.type).python_type
