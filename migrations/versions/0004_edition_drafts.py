"""Editions being written."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    op.create_table(
        "edition_draft",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("based_on", sa.String(length=36), nullable=True),
        sa.Column("documents", sa.LargeBinary(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("changed_by", sa.String(length=36), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_edition_draft_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "based_on"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_edition_draft_school_id_based_on_edition"),
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_edition_draft")),
    )


def downgrade() -> None:
    op.drop_table("edition_draft")
