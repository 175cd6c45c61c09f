"""Feedback of supervising teachers, as it was given."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.feedback import FeedbackRow


@dataclass(frozen=True, slots=True)
class GivenFeedback:
    """Feedback on one strand of one session; the last three but one name texts that can be erased."""

    id: str
    session_id: str
    enrolment_id: str
    host_id: str
    strand: str
    level: str
    exercise: str
    worked_id: str
    better_id: str
    next_step_id: str
    given_at: datetime


class Feedback(Collection):
    def add(self, given: GivenFeedback) -> None:
        self._add(FeedbackRow(school_id=self._school, **fields_of(given)))

    def by_id(self, feedback_id: str) -> GivenFeedback | None:
        row = self._session.get(FeedbackRow, (self._school, feedback_id))
        return value_of(GivenFeedback, row) if row else None

    def of_enrolment(self, enrolment_id: str) -> list[GivenFeedback]:
        """All of an enrolment, newest first."""
        query = select(FeedbackRow).where(
            FeedbackRow.school_id == self._school, FeedbackRow.enrolment_id == enrolment_id
        )
        rows = self._session.exec(query.order_by(FeedbackRow.given_at.desc(), FeedbackRow.id))
        return [value_of(GivenFeedback, row) for row in rows]
