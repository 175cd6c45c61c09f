"""The tree of hashes over each school's events; what was recorded before is hashed as it stands now."""

from datetime import UTC

import sqlalchemy as sa
from alembic import op

from assessments.records.receipt import Recorded
from assessments.records.tree import whole
from migrations.keeping import guard, unguard

revision = "0017"
down_revision = "0016"
EVENT = sa.table(
    "event",
    sa.column("school_id", sa.String),
    sa.column("number", sa.Integer),
    sa.column("kind", sa.String),
    sa.column("subject", sa.String),
    sa.column("actor", sa.String),
    sa.column("at", sa.DateTime(timezone=True)),
    sa.column("body", sa.LargeBinary),
)


def upgrade() -> None:
    table = op.create_table(
        "record_node",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("level", sa.Integer(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("hash", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_record_node_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "level", "place", name=op.f("pk_record_node")),
    )
    leaves: dict[str, list[bytes]] = {}
    for row in op.get_bind().execute(sa.select(EVENT).order_by(EVENT.c.school_id, EVENT.c.number)):
        leaves.setdefault(row.school_id, []).append(_leaf(row))
    for school, own in leaves.items():
        rows = [
            {"school_id": school, "level": level, "place": place, "hash": found}
            for level, nodes in enumerate(whole(own))
            for place, found in enumerate(nodes)
        ]
        op.bulk_insert(table, rows)
    guard("record_node")


def downgrade() -> None:
    unguard("record_node")
    op.drop_table("record_node")


def _leaf(row: sa.Row) -> bytes:
    """SQLite gives moments without their zone, and text where text was put in place of bytes."""
    at = row.at if row.at.tzinfo is None else row.at.astimezone(UTC)
    body = row.body.encode() if isinstance(row.body, str) else bytes(row.body)
    moment = at.strftime("%Y-%m-%dT%H:%M:%S.%fZ")
    return Recorded(row.school_id, row.number, row.kind, row.subject, row.actor, moment, body).leaf
