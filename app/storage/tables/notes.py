"""What trainees note of their sessions: one row a version, one row an exercise in it."""

from datetime import datetime

from sqlalchemy import ForeignKeyConstraint, Index
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class SessionNoteRow(SQLModel, table=True):
    """`edition_id` is the edition of the repertoire whose cues and faults were ticked."""

    __tablename__ = "session_note"
    __table_args__ = (
        refers("session_id", "session_now", "session_id"),
        refers("enrolment_id", "enrolment"),
        refers("edition_id", "edition"),
        Index(None, "school_id", "enrolment_id"),
    )
    school_id: str = of_school()
    session_id: str = own_id()
    version: int = Field(primary_key=True)
    enrolment_id: str = Field(max_length=36)
    edition_id: str = Field(max_length=36)
    noted_by: str = Field(max_length=36)
    noted_at: datetime = Field(sa_type=Instant)


class NotedExerciseRow(SQLModel, table=True):
    """`cues` is JSON, a list of numbers; `faults` JSON, what mended each by the fault's id; words are kept apart."""

    __tablename__ = "noted_exercise"
    __table_args__ = (
        ForeignKeyConstraint(
            ["school_id", "session_id", "version"],
            ["session_note.school_id", "session_note.session_id", "session_note.version"],
        ),
    )
    school_id: str = of_school()
    session_id: str = own_id()
    version: int = Field(primary_key=True)
    place: int = Field(primary_key=True)
    activity: str
    exercise: str
    cues: str = "[]"
    faults: str = "{}"
    words_id: str | None = Field(default=None, max_length=36)
