"""Exercise lists drawn for exams, which list each exam got, and every opening of a sealed one."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0016"
down_revision = "0015"


def upgrade() -> None:
    op.create_table(
        "drawing",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("practical_id", sa.String(length=36), nullable=False),
        sa.Column("part", sa.String(length=64), nullable=False),
        sa.Column("specification", sa.String(), nullable=False),
        sa.Column("bank", sa.String(), nullable=False),
        sa.Column("exams", sa.String(), nullable=False),
        sa.Column("result", sa.String(), nullable=False),
        sa.Column("secret", sa.String(length=64), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("drawn_by", sa.String(length=36), nullable=False),
        sa.Column("drawn_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_drawing_school_id_school")),
        _refers("drawing", "practical_id", "edition"),
        _refers("drawing", "drawn_by", "person"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_drawing")),
    )
    op.create_table(
        "exam_list",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("part", sa.String(length=64), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("drawing_id", sa.String(length=36), nullable=False),
        sa.Column("tasks", sa.String(), nullable=False),
        sa.Column("start_code", sa.String(length=12), nullable=False),
        sa.Column("sealed", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_exam_list_school_id_school")),
        _refers("exam_list", "exam_id", "exam"),
        _refers("exam_list", "drawing_id", "drawing"),
        sa.PrimaryKeyConstraint("school_id", "exam_id", "part", "number", name=op.f("pk_exam_list")),
    )
    op.create_table(
        "list_opening",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("opened", sa.Boolean(), nullable=False),
        sa.Column("tried_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_list_opening_school_id_school")),
        _refers("list_opening", "exam_id", "exam"),
        _refers("list_opening", "person_id", "person"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_list_opening")),
    )
    op.create_index(op.f("ix_list_opening_exam_id"), "list_opening", ["exam_id"])
    for table in ("drawing", "exam_list", "list_opening"):
        guard(table)


def downgrade() -> None:
    for table in ("list_opening", "exam_list", "drawing"):
        unguard(table)
        op.drop_table(table)


def _refers(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_school_id_{column}_{to}")
    return sa.ForeignKeyConstraint(["school_id", column], [f"{to}.school_id", f"{to}.id"], name=name)
