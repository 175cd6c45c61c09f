"""What trainees note of their sessions, kept as versions."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0011"
down_revision = "0010"
TABLES = ("session_note", "noted_exercise")


def upgrade() -> None:
    op.create_table(
        "session_note",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("edition_id", sa.String(length=36), nullable=False),
        sa.Column("noted_by", sa.String(length=36), nullable=False),
        sa.Column("noted_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_session_note_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "session_id"],
            ["session_now.school_id", "session_now.session_id"],
            name=op.f("fk_session_note_school_id_session_id_session_now"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "enrolment_id"],
            ["enrolment.school_id", "enrolment.id"],
            name=op.f("fk_session_note_school_id_enrolment_id_enrolment"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "edition_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_session_note_school_id_edition_id_edition"),
        ),
        sa.PrimaryKeyConstraint("school_id", "session_id", "version", name=op.f("pk_session_note")),
    )
    op.create_index(op.f("ix_session_note_school_id_enrolment_id"), "session_note", ["school_id", "enrolment_id"])
    op.create_table(
        "noted_exercise",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("activity", sa.String(), nullable=False),
        sa.Column("exercise", sa.String(), nullable=False),
        sa.Column("cues", sa.String(), nullable=False),
        sa.Column("faults", sa.String(), nullable=False),
        sa.Column("words_id", sa.String(length=36), nullable=True),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_noted_exercise_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "session_id", "version"],
            ["session_note.school_id", "session_note.session_id", "session_note.version"],
            name=op.f("fk_noted_exercise_school_id_session_id_version_session_note"),
        ),
        sa.PrimaryKeyConstraint("school_id", "session_id", "version", "place", name=op.f("pk_noted_exercise")),
    )
    for table in TABLES:
        guard(table)


def downgrade() -> None:
    for table in TABLES:
        unguard(table)
    for table in reversed(TABLES):
        op.drop_table(table)
