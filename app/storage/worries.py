"""What host teachers told the school in private: kept for directors, shown to nobody else."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.hosts import WorryRow


@dataclass(frozen=True, slots=True)
class Worry:
    """A worry of a host about one session; `words_id` names the text, which can be erased."""

    id: str
    host_id: str
    session_id: str
    words_id: str
    told_at: datetime


class Worries(Collection):
    def add(self, worry: Worry) -> None:
        self._add(WorryRow(school_id=self._school, **fields_of(worry)))

    def by_id(self, worry_id: str) -> Worry | None:
        row = self._session.get(WorryRow, (self._school, worry_id))
        return value_of(Worry, row) if row else None

    def newest(self, most: int) -> list[Worry]:
        """Newest first, at most so many."""
        query = select(WorryRow).where(WorryRow.school_id == self._school)
        rows = self._session.exec(query.order_by(WorryRow.told_at.desc(), WorryRow.id).limit(most))
        return [value_of(Worry, row) for row in rows]
