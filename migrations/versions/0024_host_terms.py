"""On what terms host teachers take trainees, and whom they take or decline."""

import sqlalchemy as sa
from alembic import op

revision = "0024"
down_revision = "0023"


def upgrade() -> None:
    op.create_table(
        "host_terms",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=False),
        sa.Column("observers_most", sa.Integer(), nullable=True),
        sa.Column("ask_first", sa.Boolean(), nullable=False),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_host_terms_school_id_school")),
        _refers("host_terms", "host_id", "host"),
        sa.PrimaryKeyConstraint("school_id", "host_id", name=op.f("pk_host_terms")),
    )
    op.create_table(
        "host_trainee",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("standing", sa.String(length=20), nullable=False),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_host_trainee_school_id_school")),
        _refers("host_trainee", "host_id", "host"),
        _refers("host_trainee", "person_id", "person"),
        sa.PrimaryKeyConstraint("school_id", "host_id", "person_id", name=op.f("pk_host_trainee")),
    )


def downgrade() -> None:
    op.drop_table("host_trainee")
    op.drop_table("host_terms")


def _refers(table: str, column: str, to: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_school_id_{column}_{to}")
    return sa.ForeignKeyConstraint(["school_id", column], [f"{to}.school_id", f"{to}.id"], name=name)
