"""Certificates: signing keys, decisions, certificates and what was done with them."""

import sqlalchemy as sa
from alembic import op

from migrations.keeping import guard, unguard

revision = "0029"
down_revision = "0028"

TABLES = ("signing_key", "certificate_decision", "certificate", "certificate_step")


def upgrade() -> None:
    op.create_table(
        "signing_key",
        *_key("signing_key"),
        sa.Column("public_key", sa.String(length=60), nullable=False),
        sa.Column("private_key", sa.String(), nullable=False),
        *_made("signing_key"),
    )
    op.create_table(
        "certificate_decision",
        *_key("certificate_decision"),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("decision", sa.String(length=20), nullable=False),
        sa.Column("words", sa.String(), nullable=False),
        *_made("certificate_decision"),
        _refers("certificate_decision", "enrolment_id", "enrolment"),
    )
    op.create_table(
        "certificate",
        *_key("certificate"),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("readiness_id", sa.String(length=36), nullable=False),
        sa.Column("code", sa.String(length=8), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        _refers("certificate", "enrolment_id", "enrolment"),
        _refers("certificate", "readiness_id", "edition"),
        sa.UniqueConstraint("school_id", "place", name=op.f("uq_certificate_school_id_place")),
    )
    op.create_table(
        "certificate_step",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("certificate_id", sa.String(length=36), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("step", sa.String(length=20), nullable=False),
        sa.Column("words", sa.String(), nullable=False),
        sa.Column("until", sa.DateTime(timezone=True), nullable=True),
        sa.Column("plain", sa.String(), nullable=False),
        sa.Column("detailed", sa.String(), nullable=False),
        *_made("certificate_step"),
        _refers("certificate_step", "certificate_id", "certificate"),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_certificate_step_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "certificate_id", "number", name=op.f("pk_certificate_step")),
    )
    for table in TABLES:
        guard(table)


def downgrade() -> None:
    for table in reversed(TABLES):
        unguard(table)
        op.drop_table(table)


def _key(table: str) -> tuple[sa.schema.SchemaItem, ...]:
    return (
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f(f"fk_{table}_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f(f"pk_{table}")),
    )


def _made(table: str) -> tuple[sa.schema.SchemaItem, ...]:
    return (
        sa.Column("made_by", sa.String(length=36), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        _refers(table, "made_by", "person"),
    )


def _refers(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_school_id_{column}_{to}")
    return sa.ForeignKeyConstraint(["school_id", column], [f"{to}.school_id", f"{to}.id"], name=name)
