"""Facts stay: tables of facts refuse UPDATE and DELETE (and TRUNCATE, where the database has it)."""

from alembic import op

from migrations.keeping import guard, on_postgresql, unguard

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


def upgrade() -> None:
    if on_postgresql():
        op.execute(REFUSAL)
    for table in TABLES:
        guard(table)


def downgrade() -> None:
    for table in TABLES:
        unguard(table)
    if on_postgresql():
        op.execute("drop function refuse_change()")
