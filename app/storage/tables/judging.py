"""Judges' rounds on a pass mark: the panel, what each judge answered, what the director did."""

from datetime import datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class JudgingRow(SQLModel, table=True):
    """`judges` is a JSON list of the ids of people."""

    __tablename__ = "judging"
    __table_args__ = (refers("practical_id", "edition"), refers("opened_by", "person"))
    school_id: str = of_school()
    id: str = own_id()
    practical_id: str = Field(max_length=36)
    judges: str
    opened_by: str = Field(max_length=36)
    opened_at: datetime = Field(sa_type=Instant)


class JudgingAnswerRow(SQLModel, table=True):
    """One judge in one round; JSON: `marks` from 0 to 100 by block, `bounds` what they could accept, or nothing."""

    __tablename__ = "judging_answer"
    __table_args__ = (refers("judging_id", "judging"), refers("judge_id", "person"))
    school_id: str = of_school()
    judging_id: str = own_id()
    judge_id: str = Field(primary_key=True, max_length=36)
    round: int = Field(primary_key=True)
    marks: str
    bounds: str
    sent_at: datetime = Field(sa_type=Instant)


class JudgingStepRow(SQLModel, table=True):
    """What the director did with the panel, and the words that go with it."""

    __tablename__ = "judging_step"
    __table_args__ = (refers("judging_id", "judging"), refers("made_by", "person"))
    school_id: str = of_school()
    judging_id: str = own_id()
    step: str = Field(primary_key=True, max_length=20)
    words: str
    made_by: str = Field(max_length=36)
    made_at: datetime = Field(sa_type=Instant)
