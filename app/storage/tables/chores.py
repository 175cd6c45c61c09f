"""What the worker did by itself: reminders it wrote, and jobs of a day that are done."""

from datetime import datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class HostReminderRow(SQLModel, table=True):
    """A host was reminded of one version of one session, for one stage: days it had waited by then."""

    __tablename__ = "host_reminder"
    __table_args__ = (refers("host_id", "host"),)
    school_id: str = of_school()
    session_id: str = own_id()
    version: int = Field(primary_key=True)
    stage: int = Field(primary_key=True)
    host_id: str = Field(max_length=36)
    reminded_at: datetime = Field(sa_type=Instant)


class DoneRow(SQLModel, table=True):
    """A job of a day that was done, and what came of it; `day` is the school's, as an ISO date."""

    __tablename__ = "done"
    school_id: str = of_school()
    job: str = Field(primary_key=True, max_length=40)
    day: str = Field(primary_key=True, max_length=10)
    said: str
    done_at: datetime = Field(sa_type=Instant)
