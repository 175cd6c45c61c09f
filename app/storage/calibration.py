"""Described performances as scored, and the references that founding panels set."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.calibration import PerformanceScoringRow, ReferenceFoundingRow


@dataclass(frozen=True, slots=True)
class PerformanceScoring:
    """One examiner's levels of one performance; `levels` is JSON as `app/files/calibration.py` writes it."""

    id: str
    person_id: str
    edition_id: str
    performance: str
    practical_id: str
    levels: str
    note: str
    sent_at: datetime


@dataclass(frozen=True, slots=True)
class ReferenceFounding:
    """The scorings (a JSON list of their ids) whose median is a performance's reference."""

    performance: str
    edition_id: str
    panel: str
    founded_by: str
    founded_at: datetime


class Calibrations(Collection):
    def add(self, one: PerformanceScoring) -> None:
        self._add(PerformanceScoringRow(school_id=self._school, **fields_of(one)))

    def by_id(self, scoring_id: str) -> PerformanceScoring | None:
        row = self._session.get(PerformanceScoringRow, (self._school, scoring_id))
        return value_of(PerformanceScoring, row) if row else None

    def all(self) -> list[PerformanceScoring]:
        """Every scoring of the school, the first sent first."""
        rows = self._session.exec(select(PerformanceScoringRow).where(PerformanceScoringRow.school_id == self._school))
        return sorted((value_of(PerformanceScoring, row) for row in rows), key=lambda one: (one.sent_at, one.id))

    def add_founding(self, one: ReferenceFounding) -> None:
        self._add(ReferenceFoundingRow(school_id=self._school, **fields_of(one)))

    def foundings(self) -> dict[str, ReferenceFounding]:
        """Who set a reference, by performance."""
        rows = self._session.exec(select(ReferenceFoundingRow).where(ReferenceFoundingRow.school_id == self._school))
        return {row.performance: value_of(ReferenceFounding, row) for row in rows}
