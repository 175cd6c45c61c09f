"""Appeals and complaints about exams, and the steps after."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.appeals import AppealRow, AppealStepRow
from assessments.practicals.appeal import Made


@dataclass(frozen=True, slots=True)
class Appeal:
    """`kind` and `grounds` (JSON) as in `assessments.practicals.appeal`; `about` the decision's number, 0 before one."""

    id: str
    exam_id: str
    kind: str
    about: int
    grounds: str
    words_id: str
    filed_by: str
    filed_at: datetime


@dataclass(frozen=True, slots=True)
class AppealStep:
    """`person_id` is who was assigned, else who made it; `outcome` and `words_id` are "" but of a decision."""

    appeal_id: str
    number: int
    step: str
    person_id: str
    outcome: str
    words_id: str
    made_by: str
    made_at: datetime

    @property
    def made(self) -> Made:
        return Made(self.step, self.person_id)


class AppealsKept(Collection):
    def add(self, one: Appeal) -> None:
        self._add(AppealRow(school_id=self._school, **fields_of(one)))

    def by_id(self, appeal_id: str) -> Appeal | None:
        row = self._session.get(AppealRow, (self._school, appeal_id))
        return value_of(Appeal, row) if row else None

    def all(self) -> list[Appeal]:
        """Every one, the newest first."""
        return self._appeals()

    def of_exam(self, exam_id: str) -> list[Appeal]:
        return self._appeals(AppealRow.exam_id == exam_id)

    def _appeals(self, *which) -> list[Appeal]:  # noqa: ANN002 - column conditions
        rows = self._session.exec(select(AppealRow).where(AppealRow.school_id == self._school, *which))
        return sorted((value_of(Appeal, row) for row in rows), key=lambda one: (one.filed_at, one.id), reverse=True)

    def add_step(self, one: AppealStep) -> None:
        self._add(AppealStepRow(school_id=self._school, **fields_of(one)))

    def steps(self) -> dict[str, list[AppealStep]]:
        """The steps of every one, in order, by its id."""
        found: dict[str, list[AppealStep]] = defaultdict(list)
        rows = self._session.exec(select(AppealStepRow).where(AppealStepRow.school_id == self._school))
        for row in sorted(rows, key=lambda row: row.number):
            found[row.appeal_id].append(value_of(AppealStep, row))
        return found
