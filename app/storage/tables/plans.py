"""Session plans that people keep."""

from datetime import datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class SessionPlanRow(SQLModel, table=True):
    """`document` is a plan as JSON, `before` the one that it replaced; `version` grows with every change."""

    __tablename__ = "session_plan"
    __table_args__ = (refers("person_id", "person"),)
    school_id: str = of_school()
    id: str = own_id()
    person_id: str = Field(max_length=36, index=True)
    document: str
    before: str = ""
    version: int
    changed_at: datetime = Field(sa_type=Instant)
