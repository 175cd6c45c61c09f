"""Drawn exercise lists: the drawings, the lists that exams got, and every opening of a sealed one."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.lists import DrawingRow, ExamListRow, ListOpeningRow


@dataclass(frozen=True, slots=True)
class KeptDrawing:
    """One drawing with all that it takes to draw it again (JSON in `specification`, `bank`, `exams`, `result`)."""

    id: str
    practical_id: str
    part: str
    specification: str
    bank: str
    exams: str
    result: str
    secret: str
    reason: str
    drawn_by: str
    drawn_at: datetime


@dataclass(frozen=True, slots=True)
class ExamList:
    """What one exam got for one part; `tasks` is a JSON list of exercise ids."""

    exam_id: str
    part: str
    number: int
    drawing_id: str
    tasks: str
    start_code: str
    sealed: bool


@dataclass(frozen=True, slots=True)
class ListOpening:
    """A start code that somebody typed, and whether it was the right one."""

    id: str
    exam_id: str
    person_id: str
    opened: bool
    tried_at: datetime


class Lists(Collection):
    def add_drawing(self, drawing: KeptDrawing) -> None:
        self._add(DrawingRow(school_id=self._school, **fields_of(drawing)))

    def drawing(self, drawing_id: str) -> KeptDrawing | None:
        row = self._session.get(DrawingRow, (self._school, drawing_id))
        return value_of(KeptDrawing, row) if row else None

    def drawings(self) -> list[KeptDrawing]:
        """Every drawing, the newest first."""
        rows = self._session.exec(select(DrawingRow).where(DrawingRow.school_id == self._school))
        return sorted((value_of(KeptDrawing, row) for row in rows), key=lambda one: one.drawn_at, reverse=True)

    def add(self, one: ExamList) -> None:
        self._add(ExamListRow(school_id=self._school, **fields_of(one)))

    def of_exam(self, exam_id: str) -> dict[str, ExamList]:
        """The list that stands, by part."""
        return {one.part: one for one in self._lists(ExamListRow.exam_id == exam_id)}

    def standing(self) -> dict[tuple[str, str], ExamList]:
        """The list that stands, by exam and part."""
        return {(one.exam_id, one.part): one for one in self._lists()}

    def _lists(self, *which) -> list[ExamList]:  # noqa: ANN002 - column conditions
        rows = self._session.exec(select(ExamListRow).where(ExamListRow.school_id == self._school, *which))
        return sorted((value_of(ExamList, row) for row in rows), key=lambda one: one.number)

    def add_opening(self, opening: ListOpening) -> None:
        self._add(ListOpeningRow(school_id=self._school, **fields_of(opening)))

    def openings(self, exam_id: str) -> list[ListOpening]:
        """Every try of an exam's start code, in order."""
        query = select(ListOpeningRow).where(
            ListOpeningRow.school_id == self._school, ListOpeningRow.exam_id == exam_id
        )
        return sorted((value_of(ListOpening, row) for row in self._session.exec(query)), key=lambda one: one.tried_at)
