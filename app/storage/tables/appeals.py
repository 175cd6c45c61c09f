"""Appeals against exams' decisions and complaints about exams, and every step after. All of it stays; words can be erased."""

from datetime import datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class AppealRow(SQLModel, table=True):
    """`about` is the number of the decision (0 before one), `grounds` a JSON list; `words_id` names the text."""

    __tablename__ = "appeal"
    __table_args__ = (refers("exam_id", "exam"), refers("filed_by", "person"))
    school_id: str = of_school()
    id: str = own_id()
    exam_id: str = Field(max_length=36, index=True)
    kind: str = Field(max_length=20)
    about: int
    grounds: str
    words_id: str = Field(max_length=36)
    filed_by: str = Field(max_length=36)
    filed_at: datetime = Field(sa_type=Instant)


class AppealStepRow(SQLModel, table=True):
    """One step, numbered from 1: `person_id` is who was assigned, else who made it; `outcome` only of a decision."""

    __tablename__ = "appeal_step"
    __table_args__ = (refers("appeal_id", "appeal"), refers("person_id", "person"), refers("made_by", "person"))
    school_id: str = of_school()
    appeal_id: str = own_id()
    number: int = Field(primary_key=True)
    step: str = Field(max_length=20)
    person_id: str = Field(max_length=36)
    outcome: str = Field(max_length=40)
    words_id: str = Field(max_length=36)
    made_by: str = Field(max_length=36)
    made_at: datetime = Field(sa_type=Instant)
