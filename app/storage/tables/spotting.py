"""Attempts at spotting faults, and the answers in them."""

from datetime import datetime

from sqlalchemy import Index
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class SpottingAttemptRow(SQLModel, table=True):
    """One time through a lesson of an edition; `number` counts a person's, `seed` decides the order of moments."""

    __tablename__ = "spotting_attempt"
    __table_args__ = (
        refers("person_id", "person"),
        refers("edition_id", "edition"),
        Index(None, "school_id", "person_id"),
    )
    school_id: str = of_school()
    id: str = own_id()
    person_id: str = Field(max_length=36)
    edition_id: str = Field(max_length=36)
    lesson: str = Field(max_length=64)
    number: int
    seed: str = Field(max_length=32)
    begun_at: datetime = Field(sa_type=Instant)


class SpottingAnswerRow(SQLModel, table=True):
    """What was said of the moment at `place` (from 1) of an attempt; `kind` is the kind of fault named, "" for none."""

    __tablename__ = "spotting_answer"
    __table_args__ = (refers("attempt_id", "spotting_attempt"),)
    school_id: str = of_school()
    attempt_id: str = own_id()
    place: int = Field(primary_key=True)
    moment: str = Field(max_length=64)
    wrong: bool
    sure: bool
    kind: str = Field(max_length=20)
    answered_at: datetime = Field(sa_type=Instant)
