"""Study: answers as they came in, what is remembered of each question, what somebody wants to study."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import func, select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.recalls import RecallAnswerRow, RecallRow, RecallWishRow
from curriculum.study.spacing import Memory


@dataclass(frozen=True, slots=True)
class RecallAnswer:
    """One answer; `number` counts the person's answers as they came in, `undone_at` says when it was taken back."""

    id: str
    person_id: str
    question: str
    answer: str
    day: date
    number: int
    taken_at: datetime
    undone_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Wish:
    """What somebody wants to study: ids of apparatus (none for all), and the highest level ("" for any)."""

    apparatus: tuple[str, ...] = ()
    level: str = ""


class Recalls(Collection):
    def by_id(self, answer_id: str) -> RecallAnswer | None:
        row = self._session.get(RecallAnswerRow, (self._school, answer_id))
        return value_of(RecallAnswer, row) if row else None

    def put(self, answer: RecallAnswer) -> None:
        row = self._session.get(RecallAnswerRow, (self._school, answer.id)) or RecallAnswerRow(school_id=self._school)
        for name, value in fields_of(answer).items():
            setattr(row, name, value)
        self._add(row)

    def next_number(self, person_id: str) -> int:
        query = select(func.max(RecallAnswerRow.number)).where(*self._own(person_id))
        return (self._session.exec(query).one() or 0) + 1

    def answers(self, person_id: str, question: str) -> list[RecallAnswer]:
        """The standing answers to one question, the earliest day first."""
        query = select(RecallAnswerRow).where(*self._standing(person_id), RecallAnswerRow.question == question)
        return sorted(self._values(query), key=lambda one: (one.day, one.number))

    def answers_on(self, person_id: str, day: date) -> list[RecallAnswer]:
        """The standing answers of one day, as they came in."""
        query = select(RecallAnswerRow).where(*self._standing(person_id), RecallAnswerRow.day == day)
        return sorted(self._values(query), key=lambda one: one.number)

    def last_answer(self, person_id: str) -> RecallAnswer | None:
        """The standing answer that came in last."""
        query = select(RecallAnswerRow).where(*self._standing(person_id)).order_by(RecallAnswerRow.number.desc())
        return next(iter(self._values(query.limit(1))), None)

    def memories(self, person_id: str) -> dict[str, Memory]:
        """What somebody remembers, by question."""
        query = select(RecallRow).where(RecallRow.school_id == self._school, RecallRow.person_id == person_id)
        return {row.question: value_of(Memory, row) for row in self._session.exec(query)}

    def remember(self, person_id: str, question: str, memory: Memory | None) -> None:
        """Keep what is remembered of a question; None if it has no standing answer any more."""
        row = self._session.get(RecallRow, (self._school, person_id, question))
        if memory is None:
            if row is not None:
                self._session.delete(row)
                self._session.flush()
            return
        row = row or RecallRow(school_id=self._school, person_id=person_id, question=question)
        for name, value in fields_of(memory).items():
            setattr(row, name, value)
        self._add(row)

    def wish(self, person_id: str) -> Wish:
        row = self._session.get(RecallWishRow, (self._school, person_id))
        return Wish(tuple(row.apparatus.split()), row.level) if row else Wish()

    def put_wish(self, person_id: str, wish: Wish) -> None:
        row = self._session.get(RecallWishRow, (self._school, person_id))
        row = row or RecallWishRow(school_id=self._school, person_id=person_id)
        row.apparatus, row.level = " ".join(wish.apparatus), wish.level
        self._add(row)

    def _values(self, query) -> list[RecallAnswer]:  # noqa: ANN001
        return [value_of(RecallAnswer, row) for row in self._session.exec(query)]

    def _own(self, person_id: str) -> tuple:
        return RecallAnswerRow.school_id == self._school, RecallAnswerRow.person_id == person_id

    def _standing(self, person_id: str) -> tuple:
        return *self._own(person_id), RecallAnswerRow.undone_at.is_(None)
