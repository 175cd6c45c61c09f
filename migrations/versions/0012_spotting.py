"""Attempts at spotting faults, and the answers in them."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0012"
down_revision = "0011"
TABLES = ("spotting_attempt", "spotting_answer")


def upgrade() -> None:
    op.create_table(
        "spotting_attempt",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("edition_id", sa.String(length=36), nullable=False),
        sa.Column("lesson", sa.String(length=64), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("seed", sa.String(length=32), nullable=False),
        sa.Column("begun_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_spotting_attempt_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_spotting_attempt_school_id_person_id_person"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "edition_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_spotting_attempt_school_id_edition_id_edition"),
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_spotting_attempt")),
    )
    op.create_index(op.f("ix_spotting_attempt_school_id_person_id"), "spotting_attempt", ["school_id", "person_id"])
    op.create_table(
        "spotting_answer",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("attempt_id", sa.String(length=36), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("moment", sa.String(length=64), nullable=False),
        sa.Column("wrong", sa.Boolean(), nullable=False),
        sa.Column("sure", sa.Boolean(), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("answered_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_spotting_answer_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "attempt_id"],
            ["spotting_attempt.school_id", "spotting_attempt.id"],
            name=op.f("fk_spotting_answer_school_id_attempt_id_spotting_attempt"),
        ),
        sa.PrimaryKeyConstraint("school_id", "attempt_id", "place", name=op.f("pk_spotting_answer")),
    )
    for table in TABLES:
        guard(table)


def downgrade() -> None:
    for table in TABLES:
        unguard(table)
    for table in reversed(TABLES):
        op.drop_table(table)
