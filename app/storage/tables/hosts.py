"""Host teachers, their private links, and what they decided."""

from datetime import date, datetime

from sqlalchemy import Index, false
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class HostRow(SQLModel, table=True):
    __tablename__ = "host"
    school_id: str = of_school()
    id: str = own_id()
    name: str
    email: str
    site: str
    level: str
    verified_on: date
    eligible_until: date | None = None
    person_id: str | None = Field(default=None, max_length=36)
    paused_at: datetime | None = Field(default=None, sa_type=Instant)


class HostLinkRow(SQLModel, table=True):
    __tablename__ = "host_link"
    __table_args__ = (refers("host_id", "host"),)
    school_id: str = of_school()
    token_hash: str = Field(primary_key=True, max_length=64)
    host_id: str = Field(max_length=36)
    made_at: datetime = Field(sa_type=Instant)
    ends_at: datetime = Field(sa_type=Instant)
    ended_early: bool = Field(default=False, sa_column_kwargs={"server_default": false()})


class HostDecisionRow(SQLModel, table=True):
    """A signature or a sending back of one version of one session."""

    __tablename__ = "host_decision"
    __table_args__ = (refers("host_id", "host"), Index(None, "school_id", "host_id"))
    school_id: str = of_school()
    session_id: str = own_id()
    version: int = Field(primary_key=True)
    host_id: str = Field(max_length=36)
    decision: str = Field(max_length=20)
    reason_id: str | None = Field(default=None, max_length=36)
    receipt: str = Field(max_length=40)
    decided_at: datetime = Field(sa_type=Instant)
