"""Places on panels that were declined, and the private links of examiners invited from outside."""

from datetime import datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class SeatDeclineRow(SQLModel, table=True):
    """An examiner who will not examine in an exam, and why; their seat is gone."""

    __tablename__ = "seat_decline"
    __table_args__ = (refers("exam_id", "exam"), refers("examiner_id", "person"))
    school_id: str = of_school()
    exam_id: str = own_id()
    examiner_id: str = Field(primary_key=True, max_length=36)
    reason: str
    declined_at: datetime = Field(sa_type=Instant)


class InvitationRow(SQLModel, table=True):
    """The private link by which somebody invited from outside comes to the exam they examine in."""

    __tablename__ = "invitation"
    __table_args__ = (refers("exam_id", "exam"), refers("person_id", "person"))
    school_id: str = of_school()
    token_hash: str = Field(primary_key=True, max_length=64)
    exam_id: str = Field(max_length=36)
    person_id: str = Field(max_length=36)
    made_at: datetime = Field(sa_type=Instant)
    ends_at: datetime = Field(sa_type=Instant)
