"""Places on panels that examiners declined, and private links of examiners invited from outside."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0030"
down_revision = "0029"


def upgrade() -> None:
    op.create_table(
        "seat_decline",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("examiner_id", sa.String(length=36), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("declined_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_seat_decline_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "exam_id"], ["exam.school_id", "exam.id"], name=op.f("fk_seat_decline_school_id_exam_id_exam")
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "examiner_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_seat_decline_school_id_examiner_id_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "exam_id", "examiner_id", name=op.f("pk_seat_decline")),
    )
    guard("seat_decline")
    op.create_table(
        "invitation",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_invitation_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "exam_id"], ["exam.school_id", "exam.id"], name=op.f("fk_invitation_school_id_exam_id_exam")
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_invitation_school_id_person_id_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "token_hash", name=op.f("pk_invitation")),
    )


def downgrade() -> None:
    op.drop_table("invitation")
    unguard("seat_decline")
    op.drop_table("seat_decline")
