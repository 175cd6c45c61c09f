"""What a season's sheets were last found to say."""

from datetime import datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class SeasonPictureRow(SQLModel, table=True):
    """`fingerprint` is of the sheets that `content` (JSON) follows from; made again when they change."""

    __tablename__ = "season_picture"
    __table_args__ = (refers("practical_id", "edition"),)
    school_id: str = of_school()
    practical_id: str = own_id()
    fingerprint: str = Field(max_length=64)
    content: str
    made_at: datetime = Field(sa_type=Instant)
