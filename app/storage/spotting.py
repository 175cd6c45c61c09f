"""Attempts at spotting faults: begun, answered moment by moment, never changed."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.spotting import SpottingAnswerRow, SpottingAttemptRow
from assessments.spotting.scoring import Answer


@dataclass(frozen=True, slots=True)
class Attempt:
    """One time through a lesson of an edition; `number` counts a person's, `seed` decides the order of moments."""

    id: str
    person_id: str
    edition_id: str
    lesson: str
    number: int
    seed: str
    begun_at: datetime


@dataclass(frozen=True, slots=True)
class AnsweredAttempt:
    """An attempt with its answers in the order of its moments; `answered_at` is the moment of the last."""

    attempt: Attempt
    answers: tuple[Answer, ...] = ()
    answered_at: datetime | None = None


class SpottingAttempts(Collection):
    def add(self, attempt: Attempt) -> None:
        self._add(SpottingAttemptRow(school_id=self._school, **fields_of(attempt)))

    def add_answer(self, attempt_id: str, place: int, answer: Answer, at: datetime) -> None:
        """Keep the answer at a place, from 1."""
        self._add(
            SpottingAnswerRow(
                school_id=self._school, attempt_id=attempt_id, place=place, answered_at=at, **fields_of(answer)
            )
        )

    def by_id(self, attempt_id: str) -> AnsweredAttempt | None:
        return next(iter(self._attempts(SpottingAttemptRow.id == attempt_id)), None)

    def of_person(self, person_id: str) -> tuple[AnsweredAttempt, ...]:
        """Somebody's attempts, the first begun first."""
        return self._attempts(SpottingAttemptRow.person_id == person_id)

    def all(self) -> tuple[AnsweredAttempt, ...]:
        """The school's attempts, the first begun first."""
        return self._attempts()

    def _attempts(self, *which) -> tuple[AnsweredAttempt, ...]:  # noqa: ANN002 - column conditions
        own = (SpottingAttemptRow.school_id == self._school, *which)
        order = (SpottingAttemptRow.begun_at, SpottingAttemptRow.number, SpottingAttemptRow.id)
        attempts = self._session.exec(select(SpottingAttemptRow).where(*own).order_by(*order)).all()
        joined = (SpottingAnswerRow.school_id == SpottingAttemptRow.school_id) & (
            SpottingAnswerRow.attempt_id == SpottingAttemptRow.id
        )
        query = select(SpottingAnswerRow).join(SpottingAttemptRow, joined).where(*own)
        answers = defaultdict(list)
        for row in self._session.exec(query.order_by(SpottingAnswerRow.attempt_id, SpottingAnswerRow.place)):
            answers[row.attempt_id].append(row)
        return tuple(_answered(row, answers[row.id]) for row in attempts)


def _answered(row: SpottingAttemptRow, answers: list[SpottingAnswerRow]) -> AnsweredAttempt:
    said = tuple(value_of(Answer, one) for one in answers)
    return AnsweredAttempt(value_of(Attempt, row), said, answers[-1].answered_at if answers else None)
