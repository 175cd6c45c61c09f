"""What trainees ask of the school, and the steps after."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.requests import RequestRow, RequestStepRow


@dataclass(frozen=True, slots=True)
class Request:
    """`first_day` and `last_day` where the kind has them; `words_id` names the text, which can be erased."""

    id: str
    enrolment_id: str
    kind: str
    first_day: date | None
    last_day: date | None
    words_id: str
    asked_at: datetime


@dataclass(frozen=True, slots=True)
class RequestStep:
    """`step` as in `assessments.requests.life`; `words_id` names the reason."""

    request_id: str
    number: int
    step: str
    words_id: str
    made_by: str
    made_at: datetime


class Requests(Collection):
    def add(self, one: Request) -> None:
        self._add(RequestRow(school_id=self._school, **fields_of(one)))

    def by_id(self, request_id: str) -> Request | None:
        row = self._session.get(RequestRow, (self._school, request_id))
        return value_of(Request, row) if row else None

    def all(self) -> list[Request]:
        """Every request, the newest first."""
        rows = self._session.exec(select(RequestRow).where(RequestRow.school_id == self._school))
        return sorted((value_of(Request, row) for row in rows), key=lambda one: (one.asked_at, one.id), reverse=True)

    def of_enrolment(self, enrolment_id: str) -> list[Request]:
        return [one for one in self.all() if one.enrolment_id == enrolment_id]

    def add_step(self, one: RequestStep) -> None:
        self._add(RequestStepRow(school_id=self._school, **fields_of(one)))

    def steps(self) -> dict[str, list[RequestStep]]:
        """The steps of every request, in order, by its id."""
        found: dict[str, list[RequestStep]] = defaultdict(list)
        rows = self._session.exec(select(RequestStepRow).where(RequestStepRow.school_id == self._school))
        for row in sorted(rows, key=lambda row: row.number):
            found[row.request_id].append(value_of(RequestStep, row))
        return found
