"""Described performances as examiners scored them, and which of them founded a reference."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0026"
down_revision = "0025"


def upgrade() -> None:
    op.create_table(
        "performance_scoring",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("edition_id", sa.String(length=36), nullable=False),
        sa.Column("performance", sa.String(length=64), nullable=False),
        sa.Column("practical_id", sa.String(length=36), nullable=False),
        sa.Column("levels", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("sent_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_performance_scoring_school_id_school")),
        _refers("performance_scoring", "person_id", "person"),
        _refers("performance_scoring", "edition_id", "edition"),
        _refers("performance_scoring", "practical_id", "edition"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_performance_scoring")),
    )
    index = op.f("ix_performance_scoring_school_id_person_id")
    op.create_index(index, "performance_scoring", ["school_id", "person_id"])
    op.create_table(
        "reference_founding",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("performance", sa.String(length=64), nullable=False),
        sa.Column("edition_id", sa.String(length=36), nullable=False),
        sa.Column("panel", sa.String(), nullable=False),
        sa.Column("founded_by", sa.String(length=36), nullable=False),
        sa.Column("founded_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_reference_founding_school_id_school")),
        _refers("reference_founding", "edition_id", "edition"),
        _refers("reference_founding", "founded_by", "person"),
        sa.PrimaryKeyConstraint("school_id", "performance", name=op.f("pk_reference_founding")),
    )
    for table in ("performance_scoring", "reference_founding"):
        guard(table)


def downgrade() -> None:
    for table in ("reference_founding", "performance_scoring"):
        unguard(table)
    op.drop_table("reference_founding")
    op.drop_index(op.f("ix_performance_scoring_school_id_person_id"), "performance_scoring")
    op.drop_table("performance_scoring")


def _refers(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_school_id_{column}_{to}")
    return sa.ForeignKeyConstraint(["school_id", column], [f"{to}.school_id", f"{to}.id"], name=name)
