"""Further attempts at an exam: what they follow and cover, and what the decision before them asked for."""

import sqlalchemy as sa
from alembic import op

revision = "0032"
down_revision = "0031"


def upgrade() -> None:
    op.add_column("exam", sa.Column("resit_of", sa.String(length=36), nullable=False, server_default=""))
    op.add_column("exam", sa.Column("parts", sa.String(), nullable=False, server_default="[]"))
    op.add_column("exam_decision", sa.Column("refer_tasks", sa.String(), nullable=False, server_default="[]"))
    op.add_column("exam_decision", sa.Column("again_from", sa.Date(), nullable=True))
    op.add_column("exam_decision", sa.Column("extra_minutes", sa.Integer(), nullable=False, server_default="0"))
    op.add_column("exam_decision", sa.Column("extra_on", sa.String(), nullable=False, server_default=""))


def downgrade() -> None:
    for column in ("extra_on", "extra_minutes", "again_from", "refer_tasks"):
        op.drop_column("exam_decision", column)
    for column in ("parts", "resit_of"):
        op.drop_column("exam", column)
