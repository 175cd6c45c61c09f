"""Session plans, each its maker's own."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.plans import SessionPlanRow


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """A plan as JSON, and the one it replaced ("" for none)."""

    id: str
    person_id: str
    document: str
    before: str
    version: int
    changed_at: datetime


class Plans(Collection):
    def put(self, plan: KeptPlan) -> None:
        row = self._session.get(SessionPlanRow, (self._school, plan.id)) or SessionPlanRow(school_id=self._school)
        for name, value in fields_of(plan).items():
            setattr(row, name, value)
        self._add(row)

    def by_id(self, plan_id: str) -> KeptPlan | None:
        row = self._session.get(SessionPlanRow, (self._school, plan_id))
        return value_of(KeptPlan, row) if row else None

    def of_person(self, person_id: str) -> list[KeptPlan]:
        """Somebody's plans, the last changed first."""
        query = select(SessionPlanRow).where(
            SessionPlanRow.school_id == self._school, SessionPlanRow.person_id == person_id
        )
        found = [value_of(KeptPlan, row) for row in self._session.exec(query)]
        return sorted(found, key=lambda plan: plan.changed_at, reverse=True)

    def remove(self, plan_id: str) -> None:
        self._session.delete(self._session.get(SessionPlanRow, (self._school, plan_id)))
        self._session.flush()
