"""Incidents and near misses as they were reported, and what came after. All of it stays; words can be erased."""

from datetime import date, datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class IncidentRow(SQLModel, table=True):
    """`words_id`, `told_id` and `changed_id` name texts; `machines` is a JSON list; `exam_id` is "" where it was none."""

    __tablename__ = "incident"
    __table_args__ = (refers("told_by", "person"),)
    school_id: str = of_school()
    id: str = own_id()
    degree: str = Field(max_length=20)
    during: str = Field(max_length=20)
    day: date
    place: str
    exam_id: str = Field(max_length=36)
    words_id: str = Field(max_length=36)
    told_id: str = Field(max_length=36)
    changed_id: str = Field(max_length=36)
    machines: str
    told_by: str = Field(max_length=36)
    told_at: datetime = Field(sa_type=Instant)


class IncidentStepRow(SQLModel, table=True):
    """One step, numbered from 1: `closed` with what came of it, or `back` with the machine that is in use again and why."""

    __tablename__ = "incident_step"
    __table_args__ = (refers("incident_id", "incident"), refers("made_by", "person"))
    school_id: str = of_school()
    incident_id: str = own_id()
    number: int = Field(primary_key=True)
    step: str = Field(max_length=20)
    machine: str = Field(max_length=60)
    words_id: str = Field(max_length=36)
    made_by: str = Field(max_length=36)
    made_at: datetime = Field(sa_type=Instant)
