"""What trainees ask of the school, and every step after: answers, appeals, withdrawals. All of it stays; words can be erased."""

from datetime import date, datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class RequestRow(SQLModel, table=True):
    """`first_day` and `last_day` where the kind has them (a leave); `words_id` names the text."""

    __tablename__ = "request"
    __table_args__ = (refers("enrolment_id", "enrolment"),)
    school_id: str = of_school()
    id: str = own_id()
    enrolment_id: str = Field(max_length=36)
    kind: str = Field(max_length=20)
    first_day: date | None = None
    last_day: date | None = None
    words_id: str = Field(max_length=36)
    asked_at: datetime = Field(sa_type=Instant)


class RequestStepRow(SQLModel, table=True):
    """One step after the asking, numbered from 1."""

    __tablename__ = "request_step"
    __table_args__ = (refers("request_id", "request"), refers("made_by", "person"))
    school_id: str = of_school()
    request_id: str = own_id()
    number: int = Field(primary_key=True)
    step: str = Field(max_length=20)
    words_id: str = Field(max_length=36)
    made_by: str = Field(max_length=36)
    made_at: datetime = Field(sa_type=Instant)
