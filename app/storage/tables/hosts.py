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


class WorryRow(SQLModel, table=True):
    """What a host told the school in private, of one session; only directors read it. The words can be erased."""

    __tablename__ = "worry"
    __table_args__ = (refers("host_id", "host"),)
    school_id: str = of_school()
    id: str = own_id()
    host_id: str = Field(max_length=36)
    session_id: str = Field(max_length=36)
    words_id: str = Field(max_length=36)
    told_at: datetime = Field(sa_type=Instant)


class HostPinRow(SQLModel, table=True):
    """A host's PIN as a hash, and how often in a row it was tried wrongly."""

    __tablename__ = "host_pin"
    __table_args__ = (refers("host_id", "host"),)
    school_id: str = of_school()
    host_id: str = own_id()
    pin_hash: str
    set_at: datetime = Field(sa_type=Instant)
    wrong: int = 0


class SpotCodeRow(SQLModel, table=True):
    """A code on a trainee's screen that names one version of one session for a few minutes; only its hash is kept."""

    __tablename__ = "spot_code"
    school_id: str = of_school()
    code_hash: str = Field(primary_key=True, max_length=64)
    session_id: str = Field(max_length=36)
    version: int
    ends_at: datetime = Field(sa_type=Instant)
    used: bool = False
    tried: int = 0


class HostTermsRow(SQLModel, table=True):
    """On what terms a host takes trainees: how many observers at once, and whether they want to be asked first."""

    __tablename__ = "host_terms"
    __table_args__ = (refers("host_id", "host"),)
    school_id: str = of_school()
    host_id: str = own_id()
    observers_most: int | None = None
    ask_first: bool
    since: datetime = Field(sa_type=Instant)


class HostTraineeRow(SQLModel, table=True):
    """How a host and a trainee stand: asked, taken or declined; no row where nothing was said."""

    __tablename__ = "host_trainee"
    __table_args__ = (refers("host_id", "host"), refers("person_id", "person"))
    school_id: str = of_school()
    host_id: str = own_id()
    person_id: str = own_id()
    standing: str = Field(max_length=20)
    since: datetime = Field(sa_type=Instant)


class HostPlaceRow(SQLModel, table=True):
    """A place in a lesson of a host on a day that a trainee asked for, and what came of it; times are minutes of the day."""

    __tablename__ = "host_place"
    __table_args__ = (
        refers("host_id", "host"),
        refers("person_id", "person"),
        Index(None, "school_id", "host_id"),
        Index(None, "school_id", "person_id"),
    )
    school_id: str = of_school()
    id: str = own_id()
    host_id: str = Field(max_length=36)
    person_id: str = Field(max_length=36)
    day: date
    start: int
    end: int
    activity: str = Field(max_length=40)
    apparatus: str = Field(max_length=40)
    level: str = Field(max_length=40)
    standing: str = Field(max_length=20)
    since: datetime = Field(sa_type=Instant)
