"""Seasons: the sheets of one edition of a practical, and the picture that was last made of them."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, value_of
from app.storage.exams import Exam, SentSheet
from app.storage.tables.exams import ExamRow, ExamSeatRow, SheetVersionRow
from app.storage.tables.seasons import SeasonPictureRow


@dataclass(frozen=True, slots=True)
class KeptPicture:
    """A picture as kept (JSON), of which sheets, and when it was made."""

    practical_id: str
    fingerprint: str
    content: str
    made_at: datetime


class Seasons(Collection):
    def exams(self, practical_id: str) -> list[Exam]:
        """Every exam of one edition of a practical, in order of time."""
        query = select(ExamRow).where(ExamRow.school_id == self._school, ExamRow.practical_id == practical_id)
        found = [value_of(Exam, row) for row in self._session.exec(query)]
        return sorted(found, key=lambda exam: (exam.day, exam.starts_minute, exam.id))

    def sheets(self, practical_id: str) -> dict[str, list[SentSheet]]:
        """Every version of every sheet sent for one edition of a practical, by exam."""
        query = (
            select(SheetVersionRow)
            .join(ExamRow, (ExamRow.school_id == SheetVersionRow.school_id) & (ExamRow.id == SheetVersionRow.exam_id))
            .where(ExamRow.school_id == self._school, ExamRow.practical_id == practical_id)
        )
        found: dict[str, list[SentSheet]] = {}
        for row in self._session.exec(query):
            found.setdefault(row.exam_id, []).append(value_of(SentSheet, row))
        return found

    def versions(self, practical_id: str) -> list[tuple[str, str, int]]:
        """Exam, examiner and number of every version sent: what changes whenever a sheet is sent."""
        query = (
            select(SheetVersionRow.exam_id, SheetVersionRow.examiner_id, SheetVersionRow.version)
            .join(ExamRow, (ExamRow.school_id == SheetVersionRow.school_id) & (ExamRow.id == SheetVersionRow.exam_id))
            .where(ExamRow.school_id == self._school, ExamRow.practical_id == practical_id)
        )
        return sorted(tuple(row) for row in self._session.exec(query))

    def first_examiners(self, practical_id: str) -> dict[str, set[str]]:
        """By exam, the examiners without those who mark as further ones."""
        query = (
            select(ExamSeatRow.exam_id, ExamSeatRow.examiner_id)
            .join(ExamRow, (ExamRow.school_id == ExamSeatRow.school_id) & (ExamRow.id == ExamSeatRow.exam_id))
            .where(
                ExamRow.school_id == self._school,
                ExamRow.practical_id == practical_id,
                ~ExamSeatRow.second_marking,
            )
        )
        found: dict[str, set[str]] = {}
        for exam_id, examiner_id in self._session.exec(query):
            found.setdefault(exam_id, set()).add(examiner_id)
        return found

    def numbers(self) -> dict[str, tuple[int, int]]:
        """By practical's edition: how many exams there are, and how many sheets were sent."""
        exams = select(ExamRow.id, ExamRow.practical_id).where(ExamRow.school_id == self._school)
        of = {id: practical for id, practical in self._session.exec(exams)}  # noqa: C416 - rows are no pairs
        sheets = select(SheetVersionRow.exam_id, SheetVersionRow.examiner_id).distinct()
        sent = [exam for exam, _ in self._session.exec(sheets.where(SheetVersionRow.school_id == self._school))]
        return {
            practical: (
                sum(one == practical for one in of.values()),
                sum(of[exam] == practical for exam in sent),
            )
            for practical in set(of.values())
        }

    def picture(self, practical_id: str) -> KeptPicture | None:
        row = self._session.get(SeasonPictureRow, (self._school, practical_id))
        return value_of(KeptPicture, row) if row else None

    def put_picture(self, picture: KeptPicture) -> None:
        key = (self._school, picture.practical_id)
        row = self._session.get(SeasonPictureRow, key) or SeasonPictureRow(
            school_id=self._school,
            practical_id=picture.practical_id,
            fingerprint="",
            content="",
            made_at=picture.made_at,
        )
        row.fingerprint, row.content, row.made_at = picture.fingerprint, picture.content, picture.made_at
        self._add(row)
