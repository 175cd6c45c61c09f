"""Hours the school keeps that took several days, and modules that were taken back."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"


def upgrade() -> None:
    op.add_column("session_version", sa.Column("first_day", sa.Date(), nullable=True))
    op.add_column("module_done", sa.Column("withdrawn_at", sa.DateTime(timezone=True), nullable=True))


def downgrade() -> None:
    op.drop_column("module_done", "withdrawn_at")
    op.drop_column("session_version", "first_day")
