"""Appeals against exams' decisions and complaints about exams, and the steps after."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0033"
down_revision = "0032"


def upgrade() -> None:
    op.create_table(
        "appeal",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("about", sa.Integer(), nullable=False),
        sa.Column("grounds", sa.String(), nullable=False),
        sa.Column("words_id", sa.String(length=36), nullable=False),
        sa.Column("filed_by", sa.String(length=36), nullable=False),
        sa.Column("filed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_appeal_school_id_school")),
        _refers("appeal", "exam_id", "exam"),
        _refers("appeal", "filed_by", "person"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_appeal")),
    )
    op.create_index(op.f("ix_appeal_exam_id"), "appeal", ["exam_id"])
    op.create_table(
        "appeal_step",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("appeal_id", sa.String(length=36), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("step", sa.String(length=20), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("outcome", sa.String(length=40), nullable=False),
        sa.Column("words_id", sa.String(length=36), nullable=False),
        sa.Column("made_by", sa.String(length=36), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_appeal_step_school_id_school")),
        _refers("appeal_step", "appeal_id", "appeal"),
        _refers("appeal_step", "person_id", "person"),
        _refers("appeal_step", "made_by", "person"),
        sa.PrimaryKeyConstraint("school_id", "appeal_id", "number", name=op.f("pk_appeal_step")),
    )
    for table in ("appeal", "appeal_step"):
        guard(table)


def downgrade() -> None:
    for table in ("appeal_step", "appeal"):
        unguard(table)
        op.drop_table(table)


def _refers(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_school_id_{column}_{to}")
    return sa.ForeignKeyConstraint(["school_id", column], [f"{to}.school_id", f"{to}.id"], name=name)
