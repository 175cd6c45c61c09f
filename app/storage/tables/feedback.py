"""What supervising teachers said of lessons that trainees taught."""

from datetime import datetime

from sqlalchemy import Index
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class FeedbackRow(SQLModel, table=True):
    """One strand of one session; words are kept apart, since they can be erased."""

    __tablename__ = "feedback"
    __table_args__ = (
        refers("session_id", "session_now", "session_id"),
        refers("enrolment_id", "enrolment"),
        refers("host_id", "host"),
        Index(None, "school_id", "enrolment_id"),
    )
    school_id: str = of_school()
    id: str = own_id()
    session_id: str = Field(max_length=36)
    enrolment_id: str = Field(max_length=36)
    host_id: str = Field(max_length=36)
    strand: str = Field(max_length=20)
    level: str = Field(max_length=20)
    exercise: str = Field(default="", max_length=60)
    worked_id: str = Field(max_length=36)
    better_id: str = Field(max_length=36)
    next_step_id: str = Field(max_length=36)
    given_at: datetime = Field(sa_type=Instant)
