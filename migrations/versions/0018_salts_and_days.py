"""A salt for each person's words, and jobs of a day that are done."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0018"
down_revision = "0017"


def upgrade() -> None:
    op.create_table(
        "personal_salt",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("salt", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_personal_salt_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "person_id", name=op.f("pk_personal_salt")),
    )
    op.create_table(
        "done",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("job", sa.String(length=40), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("said", sa.String(), nullable=False),
        sa.Column("done_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_done_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "job", "day", name=op.f("pk_done")),
    )
    guard("done")


def downgrade() -> None:
    unguard("done")
    op.drop_table("done")
    op.drop_table("personal_salt")
