"""Session plans that people keep."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    op.create_table(
        "session_plan",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("document", sa.String(), nullable=False),
        sa.Column("before", sa.String(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_session_plan_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_session_plan_school_id_person_id_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_session_plan")),
    )
    op.create_index(op.f("ix_session_plan_person_id"), "session_plan", ["person_id"])


def downgrade() -> None:
    op.drop_table("session_plan")
