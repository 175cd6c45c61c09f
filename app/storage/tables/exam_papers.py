"""What is on file before and around an exam: admission, client, recording."""

from datetime import datetime

from sqlmodel import Field, SQLModel

from app.storage.tables.columns import Instant, of_school, own_id, refers


class ExamPaperRow(SQLModel, table=True):
    """One paper of an exam as it stands; `content` is JSON and can be erased, so that nothing is kept longer than needed."""

    __tablename__ = "exam_paper"
    __table_args__ = (refers("exam_id", "exam"), refers("told_by", "person"))
    school_id: str = of_school()
    exam_id: str = own_id()
    kind: str = Field(primary_key=True, max_length=12)
    version: int
    content: str
    told_by: str = Field(max_length=36)
    told_at: datetime = Field(sa_type=Instant)
