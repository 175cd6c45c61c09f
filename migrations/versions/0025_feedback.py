"""What supervising teachers said of lessons that trainees taught."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0025"
down_revision = "0024"


def upgrade() -> None:
    op.create_table(
        "feedback",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=False),
        sa.Column("strand", sa.String(length=20), nullable=False),
        sa.Column("level", sa.String(length=20), nullable=False),
        sa.Column("exercise", sa.String(length=60), nullable=False),
        sa.Column("worked_id", sa.String(length=36), nullable=False),
        sa.Column("better_id", sa.String(length=36), nullable=False),
        sa.Column("next_step_id", sa.String(length=36), nullable=False),
        sa.Column("given_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_feedback_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "enrolment_id"],
            ["enrolment.school_id", "enrolment.id"],
            name=op.f("fk_feedback_school_id_enrolment_id_enrolment"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "host_id"], ["host.school_id", "host.id"], name=op.f("fk_feedback_school_id_host_id_host")
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "session_id"],
            ["session_now.school_id", "session_now.session_id"],
            name=op.f("fk_feedback_school_id_session_id_session_now"),
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_feedback")),
    )
    op.create_index(op.f("ix_feedback_school_id_enrolment_id"), "feedback", ["school_id", "enrolment_id"])
    guard("feedback")


def downgrade() -> None:
    unguard("feedback")
    op.drop_index(op.f("ix_feedback_school_id_enrolment_id"), "feedback")
    op.drop_table("feedback")
