"""What a decision names, who marks as a further examiner, and ties between people as they were stated."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    op.add_column("exam_seat", sa.Column("second_marking", sa.Boolean(), nullable=False, server_default=sa.false()))
    op.add_column("exam_decision", sa.Column("refer_parts", sa.String(), nullable=False, server_default="[]"))
    op.add_column("exam_decision", sa.Column("void_cause", sa.String(length=20), nullable=False, server_default=""))
    op.create_table(
        "tie",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("candidate_id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("last_day", sa.Date(), nullable=True),
        sa.Column("stated_by", sa.String(length=36), nullable=False),
        sa.Column("stated_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_tie_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_tie_school_id_person_id_person"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "candidate_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_tie_school_id_candidate_id_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_tie")),
    )
    op.create_index(op.f("ix_tie_candidate_id"), "tie", ["candidate_id"])
    guard("tie")


def downgrade() -> None:
    unguard("tie")
    op.drop_table("tie")
    op.drop_column("exam_decision", "void_cause")
    op.drop_column("exam_decision", "refer_parts")
    op.drop_column("exam_seat", "second_marking")
