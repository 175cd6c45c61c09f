"""Answers to study questions, what is remembered of each question, and what somebody wants to study."""

from datetime import date, datetime

from sqlalchemy import Index
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class RecallAnswerRow(SQLModel, table=True):
    """`id` may be made on a phone without reception; `number` counts a person's answers as they came in."""

    __tablename__ = "recall_answer"
    __table_args__ = (refers("person_id", "person"), Index(None, "school_id", "person_id", "question"))
    school_id: str = of_school()
    id: str = own_id()
    person_id: str = Field(max_length=36)
    question: str = Field(max_length=200)
    answer: str = Field(max_length=20)
    day: date
    number: int
    taken_at: datetime = Field(sa_type=Instant)
    undone_at: datetime | None = Field(default=None, sa_type=Instant)


class RecallRow(SQLModel, table=True):
    """What the scheduler keeps of one question and person; made again from the answers whenever one comes in."""

    __tablename__ = "recall"
    __table_args__ = (refers("person_id", "person"),)
    school_id: str = of_school()
    person_id: str = own_id()
    question: str = Field(primary_key=True, max_length=200)
    stability: float
    difficulty: float
    last_on: date
    due_on: date
    times: int
    answer: str = Field(max_length=20)


class RecallWishRow(SQLModel, table=True):
    """What somebody wants to study: ids of apparatus parted by blanks ("" for all), and the highest level."""

    __tablename__ = "recall_wish"
    __table_args__ = (refers("person_id", "person"),)
    school_id: str = of_school()
    person_id: str = own_id()
    apparatus: str = ""
    level: str = ""
