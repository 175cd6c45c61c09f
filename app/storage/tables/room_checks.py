"""Checks of rooms and their machines before the exams of a day, as they were signed."""

from datetime import date, datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class RoomCheckRow(SQLModel, table=True):
    """`room` is its name without machines, `content` JSON."""

    __tablename__ = "room_check"
    __table_args__ = (refers("signed_by", "person"),)
    school_id: str = of_school()
    id: str = own_id()
    day: date = Field(index=True)
    room: str
    content: str
    signed_by: str = Field(max_length=36)
    signed_at: datetime = Field(sa_type=Instant)
