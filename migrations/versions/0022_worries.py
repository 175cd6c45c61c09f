"""What host teachers tell the school in private."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0022"
down_revision = "0021"


def upgrade() -> None:
    op.create_table(
        "worry",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("words_id", sa.String(length=36), nullable=False),
        sa.Column("told_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_worry_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "host_id"], ["host.school_id", "host.id"], name=op.f("fk_worry_school_id_host_id_host")
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_worry")),
    )
    guard("worry")


def downgrade() -> None:
    unguard("worry")
    op.drop_table("worry")
