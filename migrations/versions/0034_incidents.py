"""Incidents and near misses, and what came after."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0034"
down_revision = "0033"


def upgrade() -> None:
    op.create_table(
        "incident",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("degree", sa.String(length=20), nullable=False),
        sa.Column("during", sa.String(length=20), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("place", sa.String(), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("words_id", sa.String(length=36), nullable=False),
        sa.Column("told_id", sa.String(length=36), nullable=False),
        sa.Column("changed_id", sa.String(length=36), nullable=False),
        sa.Column("machines", sa.String(), nullable=False),
        sa.Column("told_by", sa.String(length=36), nullable=False),
        sa.Column("told_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_incident_school_id_school")),
        _refers("incident", "told_by", "person"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_incident")),
    )
    op.create_table(
        "incident_step",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("incident_id", sa.String(length=36), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("step", sa.String(length=20), nullable=False),
        sa.Column("machine", sa.String(length=60), nullable=False),
        sa.Column("words_id", sa.String(length=36), nullable=False),
        sa.Column("made_by", sa.String(length=36), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_incident_step_school_id_school")),
        _refers("incident_step", "incident_id", "incident"),
        _refers("incident_step", "made_by", "person"),
        sa.PrimaryKeyConstraint("school_id", "incident_id", "number", name=op.f("pk_incident_step")),
    )
    for table in ("incident", "incident_step"):
        guard(table)


def downgrade() -> None:
    for table in ("incident_step", "incident"):
        unguard(table)
        op.drop_table(table)


def _refers(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_school_id_{column}_{to}")
    return sa.ForeignKeyConstraint(["school_id", column], [f"{to}.school_id", f"{to}.id"], name=name)
