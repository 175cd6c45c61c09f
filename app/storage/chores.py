"""What the worker did by itself, so that it does it once: reminders to hosts, and jobs of a day."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import select

from app.storage.collection import Collection
from app.storage.tables.chores import DoneRow, HostReminderRow
from app.storage.tables.ledger import SessionNowRow as NOW


@dataclass(frozen=True, slots=True)
class WaitingSession:
    """A session that waits for a host, since when, and for which stages (in days) the host was reminded."""

    host_id: str
    session_id: str
    version: int
    since: datetime
    reminded: frozenset[int]


@dataclass(frozen=True, slots=True)
class Done:
    """A job of a day, and what came of it."""

    job: str
    day: date
    said: str
    done_at: datetime


class Chores(Collection):
    def waiting(self) -> list[WaitingSession]:
        """Every session that waits for a host, the oldest first."""
        reminded: dict[tuple[str, int], set[int]] = {}
        rows = select(HostReminderRow.session_id, HostReminderRow.version, HostReminderRow.stage)
        for session_id, version, stage in self._session.exec(rows.where(HostReminderRow.school_id == self._school)):
            reminded.setdefault((session_id, version), set()).add(stage)
        waiting = select(NOW.host_id, NOW.session_id, NOW.version, NOW.changed_at).where(
            NOW.school_id == self._school, NOW.state == "waiting", NOW.host_id.is_not(None)
        )
        found = [
            WaitingSession(host, session, version, since, frozenset(reminded.get((session, version), ())))
            for host, session, version, since in self._session.exec(waiting)
        ]
        return sorted(found, key=lambda one: (one.since, one.session_id))

    def add_reminder(self, waiting: WaitingSession, stage: int, at: datetime) -> None:
        self._add(
            HostReminderRow(
                school_id=self._school,
                session_id=waiting.session_id,
                version=waiting.version,
                stage=stage,
                host_id=waiting.host_id,
                reminded_at=at,
            )
        )

    def add_done(self, done: Done) -> None:
        row = DoneRow(
            school_id=self._school, job=done.job, day=done.day.isoformat(), said=done.said, done_at=done.done_at
        )
        self._add(row)

    def done(self, job: str, day: date) -> Done | None:
        row = self._session.get(DoneRow, (self._school, job, day.isoformat()))
        return Done(row.job, day, row.said, row.done_at) if row else None

    def last_done(self, job: str) -> Done | None:
        """The newest day on which a job was done."""
        query = select(DoneRow).where(DoneRow.school_id == self._school, DoneRow.job == job)
        row = self._session.exec(query.order_by(DoneRow.day.desc()).limit(1)).first()
        return Done(row.job, date.fromisoformat(row.day), row.said, row.done_at) if row else None
