"""What is on file before and around an exam; only the newest version, since some of it must not outlive its use."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.exam_papers import ExamPaperRow

CLIENT, ADMISSION, RECORDING = "client", "admission", "recording"


@dataclass(frozen=True, slots=True)
class ExamPaper:
    """One paper: `kind` is `client`, `admission` or `recording`, `content` JSON, `version` counts from 1."""

    exam_id: str
    kind: str
    version: int
    content: str
    told_by: str
    told_at: datetime


class ExamPapers(Collection):
    def of(self, exam_id: str, kind: str) -> ExamPaper | None:
        row = self._session.get(ExamPaperRow, (self._school, exam_id, kind))
        return value_of(ExamPaper, row) if row else None

    def of_kind(self, kind: str) -> dict[str, ExamPaper]:
        """The papers of a kind, by exam."""
        query = select(ExamPaperRow).where(ExamPaperRow.school_id == self._school, ExamPaperRow.kind == kind)
        return {row.exam_id: value_of(ExamPaper, row) for row in self._session.exec(query)}

    def put(self, paper: ExamPaper) -> None:
        """Keep a paper in place of the one before."""
        row = self._session.get(ExamPaperRow, (self._school, paper.exam_id, paper.kind))
        if row is None:
            self._add(ExamPaperRow(school_id=self._school, **fields_of(paper)))
            return
        for name, value in fields_of(paper).items():
            setattr(row, name, value)
        self._add(row)
