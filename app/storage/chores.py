"""What the worker did by itself, so that it does it once: reminders to hosts."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection
from app.storage.tables.chores import HostReminderRow
from app.storage.tables.ledger import SessionNowRow as NOW


@dataclass(frozen=True, slots=True)
class WaitingSession:
    """A session that waits for a host, since when, and for which stages (in days) the host was reminded."""

    host_id: str
    session_id: str
    version: int
    since: datetime
    reminded: frozenset[int]


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
