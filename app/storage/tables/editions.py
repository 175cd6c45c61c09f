"""Editions of a requirement set, the repertoire, a practical or readiness: the text as published, and drafts."""

from datetime import datetime

from sqlalchemy import LargeBinary, UniqueConstraint
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class EditionRow(SQLModel, table=True):
    """`documents` is canonical JSON: file name to YAML text."""

    __tablename__ = "edition"
    __table_args__ = (UniqueConstraint("school_id", "kind", "name", "number"),)
    school_id: str = of_school()
    id: str = own_id()
    kind: str = Field(max_length=20)
    name: str = Field(max_length=80)
    number: str = Field(max_length=40)
    documents: bytes = Field(sa_type=LargeBinary)
    published_at: datetime = Field(sa_type=Instant)


class EditionDraftRow(SQLModel, table=True):
    """An edition being written; `documents` as in an edition, `version` grows with every change."""

    __tablename__ = "edition_draft"
    __table_args__ = (refers("based_on", "edition"),)
    school_id: str = of_school()
    id: str = own_id()
    kind: str = Field(max_length=20)
    name: str = Field(max_length=80)
    based_on: str | None = Field(default=None, max_length=36)
    documents: bytes = Field(sa_type=LargeBinary)
    version: int
    changed_by: str = Field(max_length=36)
    changed_at: datetime = Field(sa_type=Instant)
