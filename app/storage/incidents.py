"""Incidents and near misses, and what came after."""

import json
from collections import defaultdict
from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.incidents import IncidentRow, IncidentStepRow
from assessments.incidents.report import Moved


@dataclass(frozen=True, slots=True)
class Incident:
    """As reported; ids name the texts, `machines` is a JSON list, `exam_id` "" where it was no exam."""

    id: str
    degree: str
    during: str
    day: date
    place: str
    exam_id: str
    words_id: str
    told_id: str
    changed_id: str
    machines: str
    told_by: str
    told_at: datetime


@dataclass(frozen=True, slots=True)
class IncidentStep:
    """`closed`, or `back` of one `machine`; `words_id` names what came of it, or why."""

    incident_id: str
    number: int
    step: str
    machine: str
    words_id: str
    made_by: str
    made_at: datetime


class Incidents(Collection):
    def add(self, one: Incident) -> None:
        self._add(IncidentRow(school_id=self._school, **fields_of(one)))

    def by_id(self, incident_id: str) -> Incident | None:
        row = self._session.get(IncidentRow, (self._school, incident_id))
        return value_of(Incident, row) if row else None

    def all(self) -> list[Incident]:
        """Every one, the newest first."""
        rows = self._session.exec(select(IncidentRow).where(IncidentRow.school_id == self._school))
        return sorted((value_of(Incident, row) for row in rows), key=lambda one: (one.told_at, one.id), reverse=True)

    def add_step(self, one: IncidentStep) -> None:
        self._add(IncidentStepRow(school_id=self._school, **fields_of(one)))

    def steps(self) -> dict[str, list[IncidentStep]]:
        """The steps of every one, in order, by its id."""
        found: dict[str, list[IncidentStep]] = defaultdict(list)
        rows = self._session.exec(select(IncidentStepRow).where(IncidentStepRow.school_id == self._school))
        for row in sorted(rows, key=lambda row: row.number):
            found[row.incident_id].append(value_of(IncidentStep, row))
        return found

    def moves(self) -> list[Moved]:
        """Every machine out of use and back, in order."""
        found = [(one.told_at, Moved(name, one.id, False)) for one in self.all() for name in json.loads(one.machines)]
        back = [(step.made_at, Moved(step.machine, step.incident_id, True))
                for steps in self.steps().values() for step in steps if step.step == "back"]  # fmt: skip
        return [move for _, move in sorted([*found, *back], key=lambda pair: (pair[0], pair[1].back))]
