"""Runs migrations on the database that was asked for."""

from alembic import context
from sqlmodel import SQLModel

import app.storage.tables
from app.settings import settings_from
from app.storage.engine import open_engine

assert app.storage.tables


def plain_types(kind: str, item: object, _: object) -> str | bool:
    """Write plain types, so that a migration never depends on the program's own."""
    name = type(item).__name__
    if kind == "type" and name == "AutoString":
        return f"sa.String(length={item.length})" if item.length else "sa.String()"
    if kind == "type" and name == "Instant":
        return "sa.DateTime(timezone=True)"
    return False


engine = context.config.attributes.get("engine") or open_engine(settings_from().database)
with engine.execution_options(writing=True).connect() as connection:
    context.configure(
        connection=connection,
        target_metadata=SQLModel.metadata,
        render_item=plain_types,
        render_as_batch=connection.dialect.name == "sqlite",
        transaction_per_migration=True,
    )
    with context.begin_transaction():
        context.run_migrations()
    connection.commit()
