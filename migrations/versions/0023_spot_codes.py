"""PINs of host teachers, and codes that name a session for a few minutes."""

import sqlalchemy as sa
from alembic import op

revision = "0023"
down_revision = "0022"


def upgrade() -> None:
    op.create_table(
        "host_pin",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=False),
        sa.Column("pin_hash", sa.String(), nullable=False),
        sa.Column("set_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("wrong", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_host_pin_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "host_id"], ["host.school_id", "host.id"], name=op.f("fk_host_pin_school_id_host_id_host")
        ),
        sa.PrimaryKeyConstraint("school_id", "host_id", name=op.f("pk_host_pin")),
    )
    op.create_table(
        "spot_code",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("code_hash", sa.String(length=64), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("used", sa.Boolean(), nullable=False),
        sa.Column("tried", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_spot_code_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "code_hash", name=op.f("pk_spot_code")),
    )


def downgrade() -> None:
    op.drop_table("spot_code")
    op.drop_table("host_pin")
