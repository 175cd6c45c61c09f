"""Programmes, who is enrolled in them on which editions, and what was granted or shown."""

from datetime import date, datetime

from sqlalchemy import Index, UniqueConstraint
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class ProgrammeRow(SQLModel, table=True):
    __tablename__ = "programme"
    __table_args__ = tuple(refers(f"{kind}_id", "edition") for kind in ("requirements", "repertoire", "readiness"))
    school_id: str = of_school()
    id: str = own_id()
    title: str
    requirements_id: str = Field(max_length=36)
    repertoire_id: str = Field(max_length=36)
    readiness_id: str = Field(max_length=36)


class EnrolmentRow(SQLModel, table=True):
    """The editions are the trainee's own: they stay when the programme moves on."""

    __tablename__ = "enrolment"
    __table_args__ = (
        refers("person_id", "person"),
        refers("programme_id", "programme"),
        *(refers(f"{kind}_id", "edition") for kind in ("requirements", "repertoire", "readiness")),
        UniqueConstraint("school_id", "person_id", "programme_id"),
    )
    school_id: str = of_school()
    id: str = own_id()
    person_id: str = Field(max_length=36)
    programme_id: str = Field(max_length=36)
    enrolled_on: date
    requirements_id: str = Field(max_length=36)
    repertoire_id: str = Field(max_length=36)
    readiness_id: str = Field(max_length=36)


class TimeGrantedRow(SQLModel, table=True):
    """An extension (`last_day` is when it was granted) or a leave (from a day to a day)."""

    __tablename__ = "time_granted"
    __table_args__ = (refers("enrolment_id", "enrolment"),)
    school_id: str = of_school()
    id: str = own_id()
    enrolment_id: str = Field(max_length=36, index=True)
    kind: str = Field(max_length=20)
    first_day: date | None = None
    last_day: date
    reason: str
    granted_by: str = Field(max_length=36)
    granted_at: datetime = Field(sa_type=Instant)


class ShownDocumentRow(SQLModel, table=True):
    """A document the school has seen: first aid, insurance, agreement."""

    __tablename__ = "shown_document"
    __table_args__ = (refers("enrolment_id", "enrolment"), Index(None, "school_id", "enrolment_id"))
    school_id: str = of_school()
    id: str = own_id()
    enrolment_id: str = Field(max_length=36)
    kind: str = Field(max_length=60)
    valid_from: date
    valid_to: date | None = None
    seen_by: str = Field(max_length=36)
    seen_at: datetime = Field(sa_type=Instant)
    withdrawn_at: datetime | None = Field(default=None, sa_type=Instant)


class ModuleDoneRow(SQLModel, table=True):
    """A taught module that a trainee has completed; with `withdrawn_at` it was a mistake (the record says why)."""

    __tablename__ = "module_done"
    __table_args__ = (refers("enrolment_id", "enrolment"),)
    school_id: str = of_school()
    enrolment_id: str = own_id()
    module: str = Field(primary_key=True, max_length=60)
    done_on: date
    recorded_by: str = Field(max_length=36)
    withdrawn_at: datetime | None = Field(default=None, sa_type=Instant)
