"""Programmes and who is enrolled in them, with what the school has seen and granted."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.programmes import (
    EnrolmentRow,
    ModuleDoneRow,
    ProgrammeRow,
    ShownDocumentRow,
    TimeGrantedRow,
)


@dataclass(frozen=True, slots=True)
class Programme:
    """A programme with the editions that new trainees start on."""

    id: str
    title: str
    requirements_id: str
    repertoire_id: str
    readiness_id: str


@dataclass(frozen=True, slots=True)
class Enrolment:
    """A trainee in a programme, on editions that stay their own."""

    id: str
    person_id: str
    programme_id: str
    enrolled_on: date
    requirements_id: str
    repertoire_id: str
    readiness_id: str


@dataclass(frozen=True, slots=True)
class ShownDocument:
    """A document the school has seen; without `valid_to` it has no end."""

    id: str
    kind: str
    valid_from: date
    valid_to: date | None
    seen_by: str
    seen_at: datetime


@dataclass(frozen=True, slots=True)
class TimeGranted:
    """An extension or a leave (`kind`), with who granted it and why."""

    id: str
    kind: str
    first_day: date | None
    last_day: date
    reason: str
    granted_by: str
    granted_at: datetime


class Enrolments(Collection):
    def add_programme(self, programme: Programme) -> None:
        self._add(ProgrammeRow(school_id=self._school, **fields_of(programme)))

    def programmes(self) -> list[Programme]:
        rows = self._session.exec(select(ProgrammeRow).where(ProgrammeRow.school_id == self._school))
        found = [value_of(Programme, row) for row in rows]
        return sorted(found, key=lambda programme: programme.title)

    def add(self, enrolment: Enrolment) -> None:
        self._add(EnrolmentRow(school_id=self._school, **fields_of(enrolment)))

    def by_id(self, enrolment_id: str) -> Enrolment | None:
        row = self._session.get(EnrolmentRow, (self._school, enrolment_id))
        return value_of(Enrolment, row) if row else None

    def of_person(self, person_id: str) -> list[Enrolment]:
        query = select(EnrolmentRow).where(EnrolmentRow.school_id == self._school, EnrolmentRow.person_id == person_id)
        return [value_of(Enrolment, row) for row in self._session.exec(query)]

    def all(self) -> list[Enrolment]:
        rows = self._session.exec(select(EnrolmentRow).where(EnrolmentRow.school_id == self._school))
        return [value_of(Enrolment, row) for row in rows]

    def move(self, enrolment_id: str, kind: str, edition_id: str) -> None:
        """Put an enrolment on another edition of `requirements`, `repertoire` or `readiness`."""
        row = self._session.get(EnrolmentRow, (self._school, enrolment_id))
        setattr(row, f"{kind}_id", edition_id)
        self._add(row)

    def start_on(self, kind: str, edition_id: str, was: frozenset[str]) -> None:
        """Let programmes that start on one of the editions `was` start on this one from now on."""
        for row in self._session.exec(select(ProgrammeRow).where(ProgrammeRow.school_id == self._school)):
            if getattr(row, f"{kind}_id") in was:
                setattr(row, f"{kind}_id", edition_id)
                self._add(row)

    def add_document(self, enrolment_id: str, document: ShownDocument) -> None:
        self._add(ShownDocumentRow(school_id=self._school, enrolment_id=enrolment_id, **fields_of(document)))

    def withdraw_document(self, document_id: str, at: datetime) -> None:
        row = self._session.get(ShownDocumentRow, (self._school, document_id))
        row.withdrawn_at = at
        self._add(row)

    def document(self, document_id: str) -> tuple[str, ShownDocument, datetime | None] | None:
        """A document with the enrolment it belongs to, and since when it no longer stands."""
        row = self._session.get(ShownDocumentRow, (self._school, document_id))
        return (row.enrolment_id, value_of(ShownDocument, row), row.withdrawn_at) if row else None

    def documents_withdrawn(self, enrolment_id: str) -> list[tuple[ShownDocument, datetime]]:
        """Documents that no longer stand, and since when; the latest first."""
        query = select(ShownDocumentRow).where(
            ShownDocumentRow.school_id == self._school,
            ShownDocumentRow.enrolment_id == enrolment_id,
            ShownDocumentRow.withdrawn_at.is_not(None),
        )
        found = [(value_of(ShownDocument, row), row.withdrawn_at) for row in self._session.exec(query)]
        return sorted(found, key=lambda one: one[1], reverse=True)

    def documents(self, enrolment_id: str) -> list[ShownDocument]:
        """Documents seen and not withdrawn."""
        return self._documents(ShownDocumentRow.enrolment_id == enrolment_id)[enrolment_id]

    def all_documents(self) -> dict[str, list[ShownDocument]]:
        """The same of every enrolment at once, by its id."""
        return self._documents()

    def _documents(self, *which) -> dict[str, list[ShownDocument]]:  # noqa: ANN002 - column conditions
        query = select(ShownDocumentRow).where(
            ShownDocumentRow.school_id == self._school, ShownDocumentRow.withdrawn_at.is_(None), *which
        )
        found = defaultdict(list)
        for row in self._session.exec(query):
            found[row.enrolment_id].append(value_of(ShownDocument, row))
        for some in found.values():
            some.sort(key=lambda one: one.kind)
        return found

    def add_module(self, enrolment_id: str, module: str, done_on: date, recorded_by: str) -> None:
        """Put a module on record; one that was taken back stands again."""
        row = self._session.get(ModuleDoneRow, (self._school, enrolment_id, module)) or ModuleDoneRow(
            school_id=self._school, enrolment_id=enrolment_id, module=module, done_on=done_on, recorded_by=recorded_by
        )
        row.done_on, row.recorded_by, row.withdrawn_at = done_on, recorded_by, None
        self._add(row)

    def withdraw_module(self, enrolment_id: str, module: str, at: datetime) -> None:
        row = self._session.get(ModuleDoneRow, (self._school, enrolment_id, module))
        row.withdrawn_at = at
        self._add(row)

    def modules_done(self, enrolment_id: str) -> dict[str, date]:
        return self._modules(ModuleDoneRow.enrolment_id == enrolment_id)[enrolment_id]

    def all_modules_done(self) -> dict[str, dict[str, date]]:
        """The same of every enrolment at once, by its id."""
        return self._modules()

    def _modules(self, *which) -> dict[str, dict[str, date]]:  # noqa: ANN002 - column conditions
        columns = ModuleDoneRow.enrolment_id, ModuleDoneRow.module, ModuleDoneRow.done_on
        found = defaultdict(dict)
        for enrolment_id, module, done_on in self._session.exec(
            select(*columns).where(
                ModuleDoneRow.school_id == self._school, ModuleDoneRow.withdrawn_at.is_(None), *which
            )
        ):
            found[enrolment_id][module] = done_on
        return found

    def add_time(self, enrolment_id: str, granted: TimeGranted) -> None:
        self._add(TimeGrantedRow(school_id=self._school, enrolment_id=enrolment_id, **fields_of(granted)))

    def time_granted(self, enrolment_id: str) -> list[TimeGranted]:
        return self._times(TimeGrantedRow.enrolment_id == enrolment_id)[enrolment_id]

    def all_time_granted(self) -> dict[str, list[TimeGranted]]:
        """The same of every enrolment at once, by its id."""
        return self._times()

    def _times(self, *which) -> dict[str, list[TimeGranted]]:  # noqa: ANN002 - column conditions
        found = defaultdict(list)
        for row in self._session.exec(select(TimeGrantedRow).where(TimeGrantedRow.school_id == self._school, *which)):
            found[row.enrolment_id].append(value_of(TimeGranted, row))
        for some in found.values():
            some.sort(key=lambda one: one.granted_at)
        return found
