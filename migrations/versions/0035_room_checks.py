"""Checks of rooms and their machines before the exams of a day."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0035"
down_revision = "0034"


def upgrade() -> None:
    op.create_table(
        "room_check",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("room", sa.String(), nullable=False),
        sa.Column("content", sa.String(), nullable=False),
        sa.Column("signed_by", sa.String(length=36), nullable=False),
        sa.Column("signed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_room_check_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "signed_by"],
            ["person.school_id", "person.id"],
            name=op.f("fk_room_check_school_id_signed_by_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_room_check")),
    )
    op.create_index(op.f("ix_room_check_day"), "room_check", ["day"])
    guard("room_check")


def downgrade() -> None:
    unguard("room_check")
    op.drop_table("room_check")
