"""Safety notices, and who has read them."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    op.create_table(
        "safety_notice",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("about", sa.String(length=64), nullable=False),
        sa.Column("text", sa.String(), nullable=False),
        sa.Column("issued_by", sa.String(length=36), nullable=False),
        sa.Column("issued_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ended_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("end_reason", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_safety_notice_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "issued_by"],
            ["person.school_id", "person.id"],
            name=op.f("fk_safety_notice_school_id_issued_by_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_safety_notice")),
    )
    op.create_table(
        "notice_read",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("notice_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("read_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_notice_read_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "notice_id"],
            ["safety_notice.school_id", "safety_notice.id"],
            name=op.f("fk_notice_read_school_id_notice_id_safety_notice"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_notice_read_school_id_person_id_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "notice_id", "person_id", name=op.f("pk_notice_read")),
    )
    op.create_index(op.f("ix_notice_read_person_id"), "notice_read", ["person_id"])


def downgrade() -> None:
    op.drop_table("notice_read")
    op.drop_table("safety_notice")
