"""What is on file before and around an exam: its client, later its admission and recording."""

import sqlalchemy as sa
from alembic import op

revision = "0028"
down_revision = "0027"


def upgrade() -> None:
    op.create_table(
        "exam_paper",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=12), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("content", sa.String(), nullable=False),
        sa.Column("told_by", sa.String(length=36), nullable=False),
        sa.Column("told_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_exam_paper_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "exam_id"],
            ["exam.school_id", "exam.id"],
            name=op.f("fk_exam_paper_school_id_exam_id_exam"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "told_by"],
            ["person.school_id", "person.id"],
            name=op.f("fk_exam_paper_school_id_told_by_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "exam_id", "kind", name=op.f("pk_exam_paper")),
    )


def downgrade() -> None:
    op.drop_table("exam_paper")
