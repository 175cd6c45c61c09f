"""What the band of a decision was taken from, so that later sheets of the season can't change how it came about."""

import sqlalchemy as sa
from alembic import op

revision = "0015"
down_revision = "0014"


def upgrade() -> None:
    op.add_column("exam_decision", sa.Column("season_error", sa.Float(), nullable=True))


def downgrade() -> None:
    op.drop_column("exam_decision", "season_error")
