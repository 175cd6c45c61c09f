"""Drawings of exercise lists, what each exam got from them, and who opened a sealed one."""

from datetime import datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class DrawingRow(SQLModel, table=True):
    """`specification`, `bank`, `exams` and `result` are JSON; `secret` is the seed's text."""

    __tablename__ = "drawing"
    __table_args__ = (refers("practical_id", "edition"), refers("drawn_by", "person"))
    school_id: str = of_school()
    id: str = own_id()
    practical_id: str = Field(max_length=36)
    part: str = Field(max_length=64)
    specification: str
    bank: str
    exams: str
    result: str
    secret: str = Field(max_length=64)
    reason: str
    drawn_by: str = Field(max_length=36)
    drawn_at: datetime = Field(sa_type=Instant)


class ExamListRow(SQLModel, table=True):
    """The list of one part of one exam; the highest `number` stands. `tasks` is a JSON list of exercise ids."""

    __tablename__ = "exam_list"
    __table_args__ = (refers("exam_id", "exam"), refers("drawing_id", "drawing"))
    school_id: str = of_school()
    exam_id: str = own_id()
    part: str = Field(primary_key=True, max_length=64)
    number: int = Field(primary_key=True)
    drawing_id: str = Field(max_length=36)
    tasks: str
    start_code: str = Field(max_length=12)
    sealed: bool


class ListOpeningRow(SQLModel, table=True):
    """Somebody tried the start code of an exam's sealed lists."""

    __tablename__ = "list_opening"
    __table_args__ = (refers("exam_id", "exam"), refers("person_id", "person"))
    school_id: str = of_school()
    id: str = own_id()
    exam_id: str = Field(max_length=36, index=True)
    person_id: str = Field(max_length=36)
    opened: bool
    tried_at: datetime = Field(sa_type=Instant)
