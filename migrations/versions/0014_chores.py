"""What the worker did by itself: reminders to hosts."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0014"
down_revision = "0013"


def upgrade() -> None:
    op.create_table(
        "host_reminder",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("stage", sa.Integer(), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=False),
        sa.Column("reminded_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_host_reminder_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "host_id"],
            ["host.school_id", "host.id"],
            name=op.f("fk_host_reminder_school_id_host_id_host"),
        ),
        sa.PrimaryKeyConstraint("school_id", "session_id", "version", "stage", name=op.f("pk_host_reminder")),
    )
    guard("host_reminder")


def downgrade() -> None:
    unguard("host_reminder")
    op.drop_table("host_reminder")
