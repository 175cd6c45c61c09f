"""Tokens with which a person's own programs ask; only hashes of their secrets."""

from datetime import datetime

from sqlalchemy import Index, UniqueConstraint
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class TokenRow(SQLModel, table=True):
    """`scopes` are words parted by blanks."""

    __tablename__ = "token"
    __table_args__ = (
        refers("person_id", "person"),
        UniqueConstraint("school_id", "secret_hash"),
        Index(None, "school_id", "person_id"),
    )
    school_id: str = of_school()
    id: str = own_id()
    secret_hash: str = Field(max_length=64)
    person_id: str = Field(max_length=36)
    label: str
    scopes: str
    made_at: datetime = Field(sa_type=Instant)
    ends_at: datetime = Field(sa_type=Instant)
    used_at: datetime | None = Field(default=None, sa_type=Instant)
