"""Judges' rounds on a pass mark."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0020"
down_revision = "0019"


def upgrade() -> None:
    op.create_table(
        "judging",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("practical_id", sa.String(length=36), nullable=False),
        sa.Column("judges", sa.String(), nullable=False),
        sa.Column("opened_by", sa.String(length=36), nullable=False),
        sa.Column("opened_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_judging_school_id_school")),
        _refers("judging", "practical_id", "edition"),
        _refers("judging", "opened_by", "person"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_judging")),
    )
    op.create_table(
        "judging_answer",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("judging_id", sa.String(length=36), nullable=False),
        sa.Column("judge_id", sa.String(length=36), nullable=False),
        sa.Column("round", sa.Integer(), nullable=False),
        sa.Column("marks", sa.String(), nullable=False),
        sa.Column("bounds", sa.String(), nullable=False),
        sa.Column("sent_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_judging_answer_school_id_school")),
        _refers("judging_answer", "judging_id", "judging"),
        _refers("judging_answer", "judge_id", "person"),
        sa.PrimaryKeyConstraint("school_id", "judging_id", "judge_id", "round", name=op.f("pk_judging_answer")),
    )
    op.create_table(
        "judging_step",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("judging_id", sa.String(length=36), nullable=False),
        sa.Column("step", sa.String(length=20), nullable=False),
        sa.Column("words", sa.String(), nullable=False),
        sa.Column("made_by", sa.String(length=36), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_judging_step_school_id_school")),
        _refers("judging_step", "judging_id", "judging"),
        _refers("judging_step", "made_by", "person"),
        sa.PrimaryKeyConstraint("school_id", "judging_id", "step", name=op.f("pk_judging_step")),
    )
    for table in ("judging", "judging_answer", "judging_step"):
        guard(table)


def downgrade() -> None:
    for table in ("judging_step", "judging_answer", "judging"):
        unguard(table)
        op.drop_table(table)


def _refers(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_school_id_{column}_{to}")
    return sa.ForeignKeyConstraint(["school_id", column], [f"{to}.school_id", f"{to}.id"], name=name)
