"""What examiners did on their sheets, record by record; facts that are never changed."""

import json
from collections.abc import Iterable
from datetime import datetime

from sqlmodel import select

from app.storage.canonical import canonical
from app.storage.collection import Collection
from app.storage.tables.exams import SheetRecordRow
from assessments.practicals.sheet_records import SheetRecord


class SheetRecords(Collection):
    def of(self, exam_id: str, examiner_id: str) -> list[SheetRecord]:
        """What one examiner did in one exam, in order."""
        query = select(SheetRecordRow).where(
            SheetRecordRow.school_id == self._school,
            SheetRecordRow.exam_id == exam_id,
            SheetRecordRow.examiner_id == examiner_id,
        )
        return sorted((_record(row) for row in self._session.exec(query)), key=lambda one: one.order)

    def ids(self, exam_id: str, examiner_id: str) -> set[str]:
        """The ids of the same."""
        return {one.id for one in self.of(exam_id, examiner_id)}

    def add(self, exam_id: str, examiner_id: str, records: Iterable[SheetRecord], at: datetime) -> None:
        for one in records:
            row = SheetRecordRow(
                school_id=self._school, exam_id=exam_id, examiner_id=examiner_id, id=one.id, device=one.device,
                count=one.count, kind=one.kind, at=one.at, value=canonical(one.value).decode(), taken_at=at,
            )  # fmt: skip
            self._session.add(row)
        self._session.flush()


def _record(row: SheetRecordRow) -> SheetRecord:
    return SheetRecord(row.id, row.device, row.count, row.kind, row.at, json.loads(row.value))
