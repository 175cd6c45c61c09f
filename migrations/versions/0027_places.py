"""Places in lessons of host teachers that trainees ask for."""

import sqlalchemy as sa
from alembic import op

revision = "0027"
down_revision = "0026"


def upgrade() -> None:
    op.create_table(
        "host_place",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("start", sa.Integer(), nullable=False),
        sa.Column("end", sa.Integer(), nullable=False),
        sa.Column("activity", sa.String(length=40), nullable=False),
        sa.Column("apparatus", sa.String(length=40), nullable=False),
        sa.Column("level", sa.String(length=40), nullable=False),
        sa.Column("standing", sa.String(length=20), nullable=False),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_host_place_school_id_school")),
        _refers("host_place", "host_id", "host"),
        _refers("host_place", "person_id", "person"),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_host_place")),
    )
    op.create_index(op.f("ix_host_place_school_id_host_id"), "host_place", ["school_id", "host_id"])
    op.create_index(op.f("ix_host_place_school_id_person_id"), "host_place", ["school_id", "person_id"])


def downgrade() -> None:
    op.drop_index(op.f("ix_host_place_school_id_person_id"), "host_place")
    op.drop_index(op.f("ix_host_place_school_id_host_id"), "host_place")
    op.drop_table("host_place")


def _refers(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_school_id_{column}_{to}")
    return sa.ForeignKeyConstraint(["school_id", column], [f"{to}.school_id", f"{to}.id"], name=name)
