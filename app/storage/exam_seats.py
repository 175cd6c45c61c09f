"""Places on panels: given up with a reason, taken by somebody else."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import delete
from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.exam_seats import InvitationRow, SeatDeclineRow
from app.storage.tables.exams import ExamSeatRow


@dataclass(frozen=True, slots=True)
class SeatDecline:
    exam_id: str
    examiner_id: str
    reason: str
    declined_at: datetime


@dataclass(frozen=True, slots=True)
class Invitation:
    """A private link (its hash) of somebody invited from outside, to one exam; it opens nothing from `ends_at` on."""

    token_hash: str
    exam_id: str
    person_id: str
    made_at: datetime
    ends_at: datetime


class ExamSeats(Collection):
    def decline(self, one: SeatDecline) -> None:
        """Keep the reason, and free the place."""
        self._add(SeatDeclineRow(school_id=self._school, **fields_of(one)))
        self.free(one.exam_id, one.examiner_id)

    def free(self, exam_id: str, examiner_id: str) -> None:
        own = (ExamSeatRow.school_id == self._school, ExamSeatRow.exam_id == exam_id)
        self._session.execute(delete(ExamSeatRow).where(*own, ExamSeatRow.examiner_id == examiner_id))

    def declines(self, exam_id: str) -> list[SeatDecline]:
        """Who declined a place in an exam, the first first."""
        query = select(SeatDeclineRow).where(
            SeatDeclineRow.school_id == self._school, SeatDeclineRow.exam_id == exam_id
        )
        return sorted(
            (value_of(SeatDecline, row) for row in self._session.exec(query)), key=lambda one: one.declined_at
        )

    def invite(self, one: Invitation) -> None:
        self._add(InvitationRow(school_id=self._school, **fields_of(one)))

    def invitation(self, token_hash: str, now: datetime) -> Invitation | None:
        """The invitation of a private link, unless it has ended."""
        row = self._session.get(InvitationRow, (self._school, token_hash))
        return value_of(Invitation, row) if row and row.ends_at > now else None

    def withdraw_invitations(self, exam_id: str, person_id: str) -> None:
        own = (InvitationRow.school_id == self._school, InvitationRow.exam_id == exam_id)
        self._session.execute(delete(InvitationRow).where(*own, InvitationRow.person_id == person_id))
