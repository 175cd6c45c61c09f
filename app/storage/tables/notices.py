"""Safety notices, and who has read them."""

from datetime import datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class SafetyNoticeRow(SQLModel, table=True):
    """`about` is the id of an exercise or an apparatus, or empty for everything; a notice stands until it is ended."""

    __tablename__ = "safety_notice"
    __table_args__ = (refers("issued_by", "person"),)
    school_id: str = of_school()
    id: str = own_id()
    about: str = Field(max_length=64)
    text: str
    issued_by: str = Field(max_length=36)
    issued_at: datetime = Field(sa_type=Instant)
    ended_at: datetime | None = Field(default=None, sa_type=Instant)
    end_reason: str = ""


class NoticeReadRow(SQLModel, table=True):
    __tablename__ = "notice_read"
    __table_args__ = (refers("notice_id", "safety_notice"), refers("person_id", "person"))
    school_id: str = of_school()
    notice_id: str = own_id()
    person_id: str = Field(primary_key=True, max_length=36, index=True)
    read_at: datetime = Field(sa_type=Instant)
