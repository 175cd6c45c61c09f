"""Answers to study questions, what is remembered of each, and what somebody wants to study."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"


def upgrade() -> None:
    op.create_table(
        "recall_answer",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("question", sa.String(length=200), nullable=False),
        sa.Column("answer", sa.String(length=20), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("taken_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("undone_at", sa.DateTime(timezone=True), nullable=True),
        *_of_person("recall_answer"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_recall_answer")),
    )
    op.create_index(
        op.f("ix_recall_answer_school_id_person_id_question"), "recall_answer", ["school_id", "person_id", "question"]
    )
    op.create_table(
        "recall",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("question", sa.String(length=200), nullable=False),
        sa.Column("stability", sa.Float(), nullable=False),
        sa.Column("difficulty", sa.Float(), nullable=False),
        sa.Column("last_on", sa.Date(), nullable=False),
        sa.Column("due_on", sa.Date(), nullable=False),
        sa.Column("times", sa.Integer(), nullable=False),
        sa.Column("answer", sa.String(length=20), nullable=False),
        *_of_person("recall"),
        sa.PrimaryKeyConstraint("school_id", "person_id", "question", name=op.f("pk_recall")),
    )
    op.create_table(
        "recall_wish",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("apparatus", sa.String(), nullable=False),
        sa.Column("level", sa.String(), nullable=False),
        *_of_person("recall_wish"),
        sa.PrimaryKeyConstraint("school_id", "person_id", name=op.f("pk_recall_wish")),
    )


def _of_person(table: str) -> tuple[sa.ForeignKeyConstraint, sa.ForeignKeyConstraint]:
    return (
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f(f"fk_{table}_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f(f"fk_{table}_school_id_person_id_person"),
        ),
    )


def downgrade() -> None:
    for table in ("recall_wish", "recall", "recall_answer"):
        op.drop_table(table)
