"""How far a mail has come. What was written before mail could be sent is not sent now: its links have ended."""

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"
INDEX = "ix_outgoing_mail_school_id_state_next_at"


def upgrade() -> None:
    op.add_column("outgoing_mail", sa.Column("state", sa.String(length=20), server_default="given_up", nullable=False))
    op.add_column("outgoing_mail", sa.Column("tries", sa.Integer(), server_default="0", nullable=False))
    op.add_column("outgoing_mail", sa.Column("next_at", sa.DateTime(timezone=True), nullable=True))
    op.add_column("outgoing_mail", sa.Column("sent_at", sa.DateTime(timezone=True), nullable=True))
    op.add_column("outgoing_mail", sa.Column("trouble", sa.String(), server_default="", nullable=False))
    op.create_index(op.f(INDEX), "outgoing_mail", ["school_id", "state", "next_at"])


def downgrade() -> None:
    op.drop_index(op.f(INDEX), "outgoing_mail")
    for name in ("trouble", "sent_at", "next_at", "tries", "state"):
        op.drop_column("outgoing_mail", name)
