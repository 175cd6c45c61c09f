"""What examiners do on their sheets, record by record."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0021"
down_revision = "0020"


def upgrade() -> None:
    op.create_table(
        "sheet_record",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("examiner_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=12), nullable=False),
        sa.Column("at", sa.Integer(), nullable=False),
        sa.Column("value", sa.String(), nullable=False),
        sa.Column("taken_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_sheet_record_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "exam_id"],
            ["exam.school_id", "exam.id"],
            name=op.f("fk_sheet_record_school_id_exam_id_exam"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "examiner_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_sheet_record_school_id_examiner_id_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "exam_id", "examiner_id", "id", name=op.f("pk_sheet_record")),
    )
    guard("sheet_record")


def downgrade() -> None:
    unguard("sheet_record")
    op.drop_table("sheet_record")
