"""The hour ledger: versions of sessions with their parts, and where each session stands."""

from datetime import date, datetime

from sqlalchemy import ForeignKeyConstraint, Index
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class SessionVersionRow(SQLModel, table=True):
    """What was logged, one row per version; minutes of the day are local to the school.

    `first_day` is there for what took several days, up to `day`.
    """

    __tablename__ = "session_version"
    __table_args__ = (refers("enrolment_id", "enrolment"), Index(None, "school_id", "enrolment_id"))
    school_id: str = of_school()
    session_id: str = own_id()
    version: int = Field(primary_key=True)
    enrolment_id: str = Field(max_length=36)
    host_id: str | None = Field(default=None, max_length=36)
    day: date
    start_minute: int
    end_minute: int
    break_minutes: int = 0
    first_day: date | None = None
    site: str = ""
    setting: str = ""
    proof: str = Field(max_length=20)
    evidence: str = ""
    note_id: str | None = Field(default=None, max_length=36)
    logged_by: str = Field(max_length=36)
    logged_at: datetime = Field(sa_type=Instant)


class SessionPartRow(SQLModel, table=True):
    """`more` is canonical JSON of any further fields a requirement set names."""

    __tablename__ = "session_part"
    __table_args__ = (
        ForeignKeyConstraint(
            ["school_id", "session_id", "version"],
            ["session_version.school_id", "session_version.session_id", "session_version.version"],
        ),
    )
    school_id: str = of_school()
    session_id: str = own_id()
    version: int = Field(primary_key=True)
    place: int = Field(primary_key=True)
    minutes: int
    activity: str
    apparatus: str = ""
    level: str = ""
    mode: str = ""
    client: str = ""
    more: str = "{}"


class SessionNowRow(SQLModel, table=True):
    """Where a session stands now; kept in the same transaction as the facts it follows from."""

    __tablename__ = "session_now"
    __table_args__ = (
        refers("enrolment_id", "enrolment"),
        Index(None, "school_id", "enrolment_id", "day"),
        Index(None, "school_id", "host_id", "state"),
    )
    school_id: str = of_school()
    session_id: str = own_id()
    enrolment_id: str = Field(max_length=36)
    host_id: str | None = Field(default=None, max_length=36)
    day: date
    version: int
    state: str = Field(max_length=20)
    changed_at: datetime = Field(sa_type=Instant)


class StandingRow(SQLModel, table=True):
    """The last computed standing of an enrolment, with the fingerprint of what it was computed from."""

    __tablename__ = "standing"
    __table_args__ = (refers("enrolment_id", "enrolment"),)
    school_id: str = of_school()
    enrolment_id: str = own_id()
    fingerprint: str = Field(max_length=64)
    result: str
