"""Panels of judges on a pass mark, their answers, and what the director did with them."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.judging import JudgingAnswerRow, JudgingRow, JudgingStepRow


@dataclass(frozen=True, slots=True)
class Judging:
    """One panel; `judges` is a JSON list of the ids of people."""

    id: str
    practical_id: str
    judges: str
    opened_by: str
    opened_at: datetime


@dataclass(frozen=True, slots=True)
class JudgingAnswer:
    """One judge's marks by block, and what pass marks and shares they could accept (both JSON), in one round."""

    judging_id: str
    judge_id: str
    round: int
    marks: str
    bounds: str
    sent_at: datetime


@dataclass(frozen=True, slots=True)
class JudgingStep:
    """`step` is `close-1`, `second`, `close-2` or `decided`; `words` the notes of the talk or the reason."""

    judging_id: str
    step: str
    words: str
    made_by: str
    made_at: datetime


class Judgings(Collection):
    def add(self, one: Judging) -> None:
        self._add(JudgingRow(school_id=self._school, **fields_of(one)))

    def by_id(self, judging_id: str) -> Judging | None:
        row = self._session.get(JudgingRow, (self._school, judging_id))
        return value_of(Judging, row) if row else None

    def all(self) -> list[Judging]:
        """Every panel, the newest first."""
        rows = self._session.exec(select(JudgingRow).where(JudgingRow.school_id == self._school))
        return sorted((value_of(Judging, row) for row in rows), key=lambda one: one.opened_at, reverse=True)

    def add_answer(self, one: JudgingAnswer) -> None:
        self._add(JudgingAnswerRow(school_id=self._school, **fields_of(one)))

    def answers(self, judging_id: str) -> list[JudgingAnswer]:
        query = select(JudgingAnswerRow).where(
            JudgingAnswerRow.school_id == self._school, JudgingAnswerRow.judging_id == judging_id
        )
        return [value_of(JudgingAnswer, row) for row in self._session.exec(query)]

    def add_step(self, one: JudgingStep) -> None:
        self._add(JudgingStepRow(school_id=self._school, **fields_of(one)))

    def steps(self, judging_id: str) -> dict[str, JudgingStep]:
        query = select(JudgingStepRow).where(
            JudgingStepRow.school_id == self._school, JudgingStepRow.judging_id == judging_id
        )
        return {row.step: value_of(JudgingStep, row) for row in self._session.exec(query)}
