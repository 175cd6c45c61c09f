"""Facts stay: tables of facts refuse UPDATE and DELETE (and TRUNCATE, where the database has it)."""

from alembic import op

revision = "0002"
down_revision = "0001"

TABLES = (
    "event",
    "session_version",
    "session_part",
    "host_decision",
    "sheet_version",
    "exam_decision",
    "waiver",
    "time_granted",
)

REFUSAL = """
create function refuse_change() returns trigger language plpgsql as $$
begin
  raise exception '% keeps facts: no row is changed or removed', tg_table_name
    using errcode = 'integrity_constraint_violation';
end $$
"""


def on_postgresql() -> bool:
    return op.get_bind().dialect.name == "postgresql"


def statements(table: str) -> list[str]:
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


def upgrade() -> None:
    if on_postgresql():
        op.execute(REFUSAL)
    for table in TABLES:
        for statement in statements(table):
            op.execute(statement)


def downgrade() -> None:
    for table in TABLES:
        for name in ("rows", "all") if on_postgresql() else ("update", "delete"):
            op.execute(f"drop trigger {table}_keeps_{name}" + (f" on {table}" if on_postgresql() else ""))
    if on_postgresql():
        op.execute("drop function refuse_change()")
