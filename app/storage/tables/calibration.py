"""Described performances as examiners scored them, and which of them founded a reference."""

from datetime import datetime

from sqlalchemy import Index
from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class PerformanceScoringRow(SQLModel, table=True):
    """One examiner's levels (JSON by block and criterion) of a performance of an edition, by an edition of the practical."""

    __tablename__ = "performance_scoring"
    __table_args__ = (
        refers("person_id", "person"),
        refers("edition_id", "edition"),
        refers("practical_id", "edition"),
        Index(None, "school_id", "person_id"),
    )
    school_id: str = of_school()
    id: str = own_id()
    person_id: str = Field(max_length=36)
    edition_id: str = Field(max_length=36)
    performance: str = Field(max_length=64)
    practical_id: str = Field(max_length=36)
    levels: str
    note: str
    sent_at: datetime = Field(sa_type=Instant)


class ReferenceFoundingRow(SQLModel, table=True):
    """A founding panel: `panel` is a JSON list of the ids of scorings whose median is the reference from then on."""

    __tablename__ = "reference_founding"
    __table_args__ = (refers("edition_id", "edition"), refers("founded_by", "person"))
    school_id: str = of_school()
    performance: str = Field(primary_key=True, max_length=64)
    edition_id: str = Field(max_length=36)
    panel: str
    founded_by: str = Field(max_length=36)
    founded_at: datetime = Field(sa_type=Instant)
