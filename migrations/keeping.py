"""Triggers for a table of facts: no row is changed or removed."""

from alembic import op


def on_postgresql() -> bool:
    return op.get_bind().dialect.name == "postgresql"


def guard(table: str) -> None:
    """Refuse UPDATE and DELETE on a table (and TRUNCATE, where the database has it)."""
    for statement in _statements(table):
        op.execute(statement)


def unguard(table: str) -> None:
    for name in ("rows", "all") if on_postgresql() else ("update", "delete"):
        op.execute(f"drop trigger {table}_keeps_{name}" + (f" on {table}" if on_postgresql() else ""))


def _statements(table: str) -> list[str]:
    if on_postgresql():
        return [
            f"create trigger {table}_keeps_rows before update or delete on {table} "
            "for each row execute function refuse_change()",
            f"create trigger {table}_keeps_all before truncate on {table} "
            "for each statement execute function refuse_change()",
        ]
    return [
        f"create trigger {table}_keeps_{event} before {event} on {table} "
        f"begin select raise(abort, '{table} keeps facts: no row is changed or removed'); end"
        for event in ("update", "delete")
    ]
