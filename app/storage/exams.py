"""Exams, their panels, sheets as drafted and as sent, decisions and waivers."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.editions import EditionRow
from app.storage.tables.exams import (
    ExamDecisionRow,
    ExamRow,
    ExamSeatRow,
    SheetDraftRow,
    SheetVersionRow,
    TieRow,
    WaiverRow,
)


@dataclass(frozen=True, slots=True)
class Exam:
    """One candidate's exam; `tasks` is JSON, `practical_id` an edition's id.

    A further attempt follows `resit_of` (an exam's id) and covers `parts` (a JSON list of part ids; empty means all).
    """

    id: str
    enrolment_id: str
    practical_id: str
    day: date
    starts_minute: int
    room: str = ""
    tasks: str = "{}"
    resit_of: str = ""
    parts: str = "[]"


@dataclass(frozen=True, slots=True)
class SentSheet:
    """One version of one examiner's sheet, as sent (JSON)."""

    exam_id: str
    examiner_id: str
    version: int
    content: str
    reason: str
    sent_at: datetime


@dataclass(frozen=True, slots=True)
class ExamDecision:
    """One decision of an exam; `refer_parts` is a JSON list of part ids.

    `season_error` is the season's own standard error in marks that the band was taken from, None where it was the
    rules' fixed number of marks. `refer_tasks` is a JSON list of (part, exercise); `again_from` the first day of a further
    attempt; `extra_minutes` are owed on top of the programme, on what `extra_on` says.
    """

    exam_id: str
    number: int
    outcome: str
    reason: str
    decider_id: str
    decided_at: datetime
    refer_parts: str = "[]"
    void_cause: str = ""
    season_error: float | None = None
    refer_tasks: str = "[]"
    again_from: date | None = None
    extra_minutes: int = 0
    extra_on: str = ""


@dataclass(frozen=True, slots=True)
class StatedTie:
    """What stands between a person and a candidate, as somebody stated it."""

    id: str
    person_id: str
    candidate_id: str
    kind: str
    last_day: date | None
    stated_by: str
    stated_at: datetime


@dataclass(frozen=True, slots=True)
class KeptWaiver:
    """A rule of independence set aside for one person in one exam."""

    id: str
    exam_id: str
    person_id: str
    rule: str
    reason: str
    granted_by: str
    granted_at: datetime


class Exams(Collection):
    def add(self, exam: Exam, examiners: tuple[str, ...]) -> None:
        self._add(ExamRow(school_id=self._school, **fields_of(exam)))
        for examiner in examiners:
            self.add_seat(exam.id, examiner)

    def by_id(self, exam_id: str) -> Exam | None:
        row = self._session.get(ExamRow, (self._school, exam_id))
        return value_of(Exam, row) if row else None

    def all(self) -> list[Exam]:
        return self._exams()

    def of_enrolment(self, enrolment_id: str) -> list[Exam]:
        return self._exams(ExamRow.enrolment_id == enrolment_id)

    def _exams(self, *which) -> list[Exam]:  # noqa: ANN002 - column conditions
        rows = self._session.exec(select(ExamRow).where(ExamRow.school_id == self._school, *which))
        return sorted((value_of(Exam, row) for row in rows), key=lambda exam: (exam.day, exam.starts_minute, exam.id))

    def move(self, exam_id: str, starts_minute: int, room: str) -> None:
        """Another time and room on the same day."""
        row = self._session.get(ExamRow, (self._school, exam_id))
        row.starts_minute, row.room = starts_minute, room
        self._add(row)

    def seats(self, exam_id: str) -> list[str]:
        """The ids of an exam's examiners."""
        query = select(ExamSeatRow.examiner_id).where(
            ExamSeatRow.school_id == self._school, ExamSeatRow.exam_id == exam_id
        )
        return sorted(self._session.exec(query))

    def add_seat(self, exam_id: str, examiner_id: str, second_marking: bool = False) -> None:
        self._add(
            ExamSeatRow(school_id=self._school, exam_id=exam_id, examiner_id=examiner_id, second_marking=second_marking)
        )

    def second_markers(self, exam_id: str) -> frozenset[str]:
        """The ids of the further examiners of an exam."""
        query = select(ExamSeatRow.examiner_id).where(
            ExamSeatRow.school_id == self._school, ExamSeatRow.exam_id == exam_id, ExamSeatRow.second_marking
        )
        return frozenset(self._session.exec(query))

    def all_seats(self) -> dict[str, list[str]]:
        """The ids of every exam's examiners, by exam."""
        query = select(ExamSeatRow.exam_id, ExamSeatRow.examiner_id).where(ExamSeatRow.school_id == self._school)
        found: dict[str, list[str]] = {}
        for exam_id, examiner_id in sorted(self._session.exec(query)):
            found.setdefault(exam_id, []).append(examiner_id)
        return found

    def of_examiner(self, examiner_id: str) -> list[Exam]:
        query = select(ExamSeatRow.exam_id).where(
            ExamSeatRow.school_id == self._school, ExamSeatRow.examiner_id == examiner_id
        )
        own = set(self._session.exec(query))
        return [exam for exam in self.all() if exam.id in own]

    def draft(self, exam_id: str, examiner_id: str) -> str | None:
        row = self._session.get(SheetDraftRow, (self._school, exam_id, examiner_id))
        return row.content if row else None

    def draft_kept_at(self, exam_id: str, examiner_id: str) -> datetime | None:
        row = self._session.get(SheetDraftRow, (self._school, exam_id, examiner_id))
        return row.saved_at if row else None

    def put_draft(self, exam_id: str, examiner_id: str, content: str, at: datetime) -> None:
        key = (self._school, exam_id, examiner_id)
        row = self._session.get(SheetDraftRow, key) or SheetDraftRow(
            school_id=self._school, exam_id=exam_id, examiner_id=examiner_id, content="", saved_at=at
        )
        row.content, row.saved_at = content, at
        self._add(row)

    def add_sheet(self, sheet: SentSheet) -> None:
        self._add(SheetVersionRow(school_id=self._school, **fields_of(sheet)))

    def sheets(self, exam_id: str) -> list[SentSheet]:
        """Every version of every sheet sent, by examiner and version."""
        query = select(SheetVersionRow).where(
            SheetVersionRow.school_id == self._school, SheetVersionRow.exam_id == exam_id
        )
        found = [value_of(SentSheet, row) for row in self._session.exec(query)]
        return sorted(found, key=lambda sheet: (sheet.examiner_id, sheet.version))

    def add_decision(self, decision: ExamDecision) -> None:
        self._add(ExamDecisionRow(school_id=self._school, **fields_of(decision)))

    def decisions(self, exam_id: str) -> list[ExamDecision]:
        query = select(ExamDecisionRow).where(
            ExamDecisionRow.school_id == self._school, ExamDecisionRow.exam_id == exam_id
        )
        return sorted((value_of(ExamDecision, row) for row in self._session.exec(query)), key=lambda one: one.number)

    def all_decisions(self) -> dict[str, ExamDecision]:
        """The decision that stands, by exam."""
        rows = self._session.exec(select(ExamDecisionRow).where(ExamDecisionRow.school_id == self._school))
        found = sorted((value_of(ExamDecision, row) for row in rows), key=lambda one: one.number)
        return {one.exam_id: one for one in found}

    def senders(self) -> dict[str, set[str]]:
        """Who has sent a sheet, by exam."""
        query = select(SheetVersionRow.exam_id, SheetVersionRow.examiner_id).where(
            SheetVersionRow.school_id == self._school
        )
        found: dict[str, set[str]] = {}
        for exam_id, examiner_id in self._session.exec(query):
            found.setdefault(exam_id, set()).add(examiner_id)
        return found

    def add_tie(self, tie: StatedTie) -> None:
        self._add(TieRow(school_id=self._school, **fields_of(tie)))

    def ties(self, candidate_id: str) -> list[StatedTie]:
        """What was stated of a candidate, in the order in which it was."""
        query = select(TieRow).where(TieRow.school_id == self._school, TieRow.candidate_id == candidate_id)
        return sorted((value_of(StatedTie, row) for row in self._session.exec(query)), key=lambda one: one.stated_at)

    def add_waiver(self, waiver: KeptWaiver) -> None:
        self._add(WaiverRow(school_id=self._school, **fields_of(waiver)))

    def waivers(self, exam_id: str) -> list[KeptWaiver]:
        query = select(WaiverRow).where(WaiverRow.school_id == self._school, WaiverRow.exam_id == exam_id)
        return sorted((value_of(KeptWaiver, row) for row in self._session.exec(query)), key=lambda one: one.granted_at)

    def passed(self, enrolment_id: str) -> dict[str, date]:
        """Practicals passed: the practical's name, and the day of the exam that passed it."""
        return self._passed(ExamRow.enrolment_id == enrolment_id)[enrolment_id]

    def all_passed(self) -> dict[str, dict[str, date]]:
        """The same of every enrolment at once, by its id."""
        return self._passed()

    def _passed(self, *which) -> dict[str, dict[str, date]]:  # noqa: ANN002 - column conditions
        """Of each exam the last decision stands."""
        of_exam = (ExamDecisionRow.school_id == ExamRow.school_id) & (ExamDecisionRow.exam_id == ExamRow.id)
        of_edition = (EditionRow.school_id == ExamRow.school_id) & (EditionRow.id == ExamRow.practical_id)
        columns = ExamRow.enrolment_id, ExamRow.id, EditionRow.name, ExamRow.day, ExamDecisionRow.outcome
        query = (
            select(*columns)
            .join(ExamDecisionRow, of_exam)
            .join(EditionRow, of_edition)
            .where(ExamRow.school_id == self._school, *which)
            .order_by(ExamRow.day, ExamRow.starts_minute, ExamRow.id, ExamDecisionRow.number)
        )
        last = {exam_id: (one, name, day, outcome) for one, exam_id, name, day, outcome in self._session.execute(query)}
        found = defaultdict(dict)
        for enrolment_id, name, day, outcome in last.values():
            if outcome == "pass":
                found[enrolment_id][name] = day
        return found
