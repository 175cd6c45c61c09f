"""Attempts at spotting faults with the lessons they went through."""

from dataclasses import dataclass

from app.files.spotting import published_lessons
from app.storage.spotting import AnsweredAttempt, Attempt
from app.storage.work import Work
from app.wording.dates import moment_text
from app.wording.languages import Language
from assessments.spotting.lesson import Moment, SpottingLesson, SpottingLessons
from assessments.spotting.order import shuffled
from assessments.spotting.scoring import Counts, Eye, counted, eye


@dataclass(frozen=True, slots=True)
class Finished:
    """An attempt that is over, with its lesson; `first` is the first time through it, whatever edition it was in."""

    known: AnsweredAttempt
    lesson: SpottingLesson
    first: bool

    @property
    def counts(self) -> Counts:
        return counted((self.lesson.moment(one.moment), one) for one in self.known.answers)

    @property
    def eye(self) -> Eye:
        return eye(self.counts)


def newest_lessons(work: Work) -> tuple[str, SpottingLessons | None]:
    """The edition that is in use, and its id; ("", None) if there is none."""
    stored = work.editions.newest("spotting")
    return (stored.id, published_lessons(*stored.documents.values())) if stored else ("", None)


def lessons_of(work: Work, attempt: Attempt) -> SpottingLessons:
    """The edition that an attempt was begun in."""
    return published_lessons(*work.editions.by_id(attempt.edition_id).documents.values())


def lesson_of(work: Work, attempt: Attempt) -> SpottingLesson:
    return lessons_of(work, attempt).lesson(attempt.lesson)


def order_of(lesson: SpottingLesson, attempt: Attempt) -> tuple[Moment, ...]:
    """The moments in the order of the attempt."""
    return shuffled(lesson.moments, attempt.seed)


def open_attempt(work: Work, person_id: str, lesson_id: str) -> AnsweredAttempt | None:
    """Somebody's attempt at a lesson that is not over."""
    for known in work.spotting.of_person(person_id):
        if known.attempt.lesson == lesson_id and not is_over(work, known):
            return known
    return None


def is_over(work: Work, known: AnsweredAttempt) -> bool:
    """Whether every moment is answered."""
    return len(known.answers) >= len(lesson_of(work, known.attempt).moments)


def finished(work: Work, attempts: tuple[AnsweredAttempt, ...]) -> tuple[Finished, ...]:
    """Those attempts that are over, the first begun first; a second time through is no evidence of a fresh eye."""
    found, seen = [], set()
    for known in attempts:
        lesson, key = lesson_of(work, known.attempt), (known.attempt.person_id, known.attempt.lesson)
        if len(known.answers) >= len(lesson.moments):
            found.append(Finished(known, lesson, key not in seen))
            seen.add(key)
    return tuple(found)


def result_href(attempt: Attempt) -> str:
    return f"/spotting/{attempt.lesson}/{attempt.id}"


def when_text(one: Finished, zone: str, language: Language) -> str:
    return moment_text(one.known.answered_at, zone, language.locale)
