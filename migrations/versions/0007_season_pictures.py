"""What a season's sheets were last found to say."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"


def upgrade() -> None:
    op.create_table(
        "season_picture",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("practical_id", sa.String(length=36), nullable=False),
        sa.Column("fingerprint", sa.String(length=64), nullable=False),
        sa.Column("content", sa.String(), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_season_picture_school_id_school")),
        sa.ForeignKeyConstraint(
            ["school_id", "practical_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_season_picture_school_id_practical_id_edition"),
        ),
        sa.PrimaryKeyConstraint("school_id", "practical_id", name=op.f("pk_season_picture")),
    )


def downgrade() -> None:
    op.drop_table("season_picture")
