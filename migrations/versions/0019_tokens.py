"""Tokens with which a person's own programs ask."""

import sqlalchemy as sa
from alembic import op

revision = "0019"
down_revision = "0018"


def upgrade() -> None:
    op.create_table(
        "token",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("secret_hash", sa.String(length=64), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("label", sa.String(), nullable=False),
        sa.Column("scopes", sa.String(), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("used_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_token_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_token_school_id_person_id_person"),
        ),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_token")),
        sa.UniqueConstraint("school_id", "secret_hash", name=op.f("uq_token_school_id_secret_hash")),
    )
    op.create_index(op.f("ix_token_school_id_person_id"), "token", ["school_id", "person_id"])


def downgrade() -> None:
    op.drop_table("token")
