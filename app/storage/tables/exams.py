"""Exams, their panels, the sheets as sent, and decisions."""

from datetime import date, datetime

from sqlalchemy import false
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class ExamRow(SQLModel, table=True):
    """`tasks` is canonical JSON: the exercise ids to be taught, by part. A further attempt follows the exam `resit_of`
    and covers `parts`, a JSON list of part ids (empty means all)."""

    __tablename__ = "exam"
    __table_args__ = (refers("enrolment_id", "enrolment"), refers("practical_id", "edition"))
    school_id: str = of_school()
    id: str = own_id()
    enrolment_id: str = Field(max_length=36, index=True)
    practical_id: str = Field(max_length=36)
    day: date
    starts_minute: int
    room: str = ""
    tasks: str = "{}"
    resit_of: str = Field(default="", max_length=36, sa_column_kwargs={"server_default": ""})
    parts: str = Field(default="[]", sa_column_kwargs={"server_default": "[]"})


class ExamSeatRow(SQLModel, table=True):
    __tablename__ = "exam_seat"
    __table_args__ = (refers("exam_id", "exam"), refers("examiner_id", "person"))
    school_id: str = of_school()
    exam_id: str = own_id()
    examiner_id: str = Field(primary_key=True, max_length=36, index=True)
    second_marking: bool = Field(default=False, sa_column_kwargs={"server_default": false()})


class SheetDraftRow(SQLModel, table=True):
    """An examiner's sheet before it is sent; nobody else reads it."""

    __tablename__ = "sheet_draft"
    __table_args__ = (refers("exam_id", "exam"), refers("examiner_id", "person"))
    school_id: str = of_school()
    exam_id: str = own_id()
    examiner_id: str = Field(primary_key=True, max_length=36)
    content: str
    saved_at: datetime = Field(sa_type=Instant)


class SheetRecordRow(SQLModel, table=True):
    """One thing an examiner did on a sheet before it was sent; `value` is canonical JSON. Nobody else reads it."""

    __tablename__ = "sheet_record"
    __table_args__ = (refers("exam_id", "exam"), refers("examiner_id", "person"))
    school_id: str = of_school()
    exam_id: str = own_id()
    examiner_id: str = Field(primary_key=True, max_length=36)
    id: str = Field(primary_key=True, max_length=36)
    device: str = Field(max_length=36)
    count: int
    kind: str = Field(max_length=12)
    at: int
    value: str
    taken_at: datetime = Field(sa_type=Instant)


class SheetVersionRow(SQLModel, table=True):
    __tablename__ = "sheet_version"
    __table_args__ = (refers("exam_id", "exam"), refers("examiner_id", "person"))
    school_id: str = of_school()
    exam_id: str = own_id()
    examiner_id: str = Field(primary_key=True, max_length=36)
    version: int = Field(primary_key=True)
    content: str
    reason: str = ""
    sent_at: datetime = Field(sa_type=Instant)


class ExamDecisionRow(SQLModel, table=True):
    """`refer_parts` is a JSON list of part ids, `refer_tasks` one of (part, exercise); `season_error` in marks, null where
    the rules' fixed band was used; `extra_minutes` are owed on top of the programme."""

    __tablename__ = "exam_decision"
    __table_args__ = (refers("exam_id", "exam"), refers("decider_id", "person"))
    school_id: str = of_school()
    exam_id: str = own_id()
    number: int = Field(primary_key=True)
    outcome: str = Field(max_length=20)
    reason: str
    decider_id: str = Field(max_length=36)
    decided_at: datetime = Field(sa_type=Instant)
    refer_parts: str = Field(default="[]", sa_column_kwargs={"server_default": "[]"})
    void_cause: str = Field(default="", max_length=20, sa_column_kwargs={"server_default": ""})
    season_error: float | None = None
    refer_tasks: str = Field(default="[]", sa_column_kwargs={"server_default": "[]"})
    again_from: date | None = None
    extra_minutes: int = Field(default=0, sa_column_kwargs={"server_default": "0"})
    extra_on: str = Field(default="", sa_column_kwargs={"server_default": ""})


class WaiverRow(SQLModel, table=True):
    """A rule of independence set aside, by whom and why; shown wherever the decision is shown."""

    __tablename__ = "waiver"
    __table_args__ = (refers("exam_id", "exam"),)
    school_id: str = of_school()
    id: str = own_id()
    exam_id: str = Field(max_length=36, index=True)
    person_id: str = Field(max_length=36)
    rule: str = Field(max_length=40)
    reason: str
    granted_by: str = Field(max_length=36)
    granted_at: datetime = Field(sa_type=Instant)


class TieRow(SQLModel, table=True):
    """What stands between a person and a candidate, as somebody stated it; `last_day` None while it lasts."""

    __tablename__ = "tie"
    __table_args__ = (refers("person_id", "person"), refers("candidate_id", "person"))
    school_id: str = of_school()
    id: str = own_id()
    person_id: str = Field(max_length=36)
    candidate_id: str = Field(max_length=36, index=True)
    kind: str = Field(max_length=20)
    last_day: date | None = None
    stated_by: str = Field(max_length=36)
    stated_at: datetime = Field(sa_type=Instant)
