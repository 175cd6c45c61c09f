"""Hosts pause, and their links can end before their time."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    op.add_column("host", sa.Column("paused_at", sa.DateTime(timezone=True), nullable=True))
    op.add_column("host_link", sa.Column("ended_early", sa.Boolean(), server_default=sa.false(), nullable=False))


def downgrade() -> None:
    op.drop_column("host_link", "ended_early")
    op.drop_column("host", "paused_at")
