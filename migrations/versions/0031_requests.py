"""What trainees ask of the school, and the steps after."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0031"
down_revision = "0030"


def upgrade() -> None:
    op.create_table(
        "request",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("first_day", sa.Date(), nullable=True),
        sa.Column("last_day", sa.Date(), nullable=True),
        sa.Column("words_id", sa.String(length=36), nullable=False),
        sa.Column("asked_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_request_school_id_school")),
        _refers("request", "enrolment_id", "enrolment"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_request")),
    )
    op.create_table(
        "request_step",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("request_id", sa.String(length=36), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("step", sa.String(length=20), nullable=False),
        sa.Column("words_id", sa.String(length=36), nullable=False),
        sa.Column("made_by", sa.String(length=36), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_request_step_school_id_school")),
        _refers("request_step", "request_id", "request"),
        _refers("request_step", "made_by", "person"),
        sa.PrimaryKeyConstraint("school_id", "request_id", "number", name=op.f("pk_request_step")),
    )
    for table in ("request", "request_step"):
        guard(table)


def downgrade() -> None:
    for table in ("request_step", "request"):
        unguard(table)
        op.drop_table(table)


def _refers(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_school_id_{column}_{to}")
    return sa.ForeignKeyConstraint(["school_id", column], [f"{to}.school_id", f"{to}.id"], name=name)
