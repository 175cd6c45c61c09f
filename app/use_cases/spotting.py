"""What people do when they spot faults: begin a lesson, answer moment by moment, never go back."""

import secrets

from app.queries.spotting_attempts import lesson_of, newest_lessons, open_attempt, order_of
from app.storage.spotting import AnsweredAttempt, Attempt
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from assessments.spotting.scoring import Answer
from curriculum.faults import N_, ConflictError, NotFoundError


def begin_lesson(store: Store, asker: Asker, lesson_id: str) -> Attempt:
    """Begin a lesson of the newest edition; the open attempt, if there is one: nobody can throw a beginning away."""
    with store.writing(asker.school.id) as work:
        known = open_attempt(work, asker.person_id, lesson_id)
        if known is not None:
            return known.attempt
        edition_id, lessons = newest_lessons(work)
        if lessons is None or lessons.lesson(lesson_id) is None:
            raise NotFoundError
        number = len(work.spotting.of_person(asker.person_id)) + 1
        attempt = Attempt(
            secrets.token_hex(16), asker.person_id, edition_id, lesson_id, number, secrets.token_hex(16), asker.now
        )
        work.spotting.add(attempt)
        work.commit()
    return attempt


def answer_moment(  # noqa: PLR0913 - who, which attempt and place, and what was said
    store: Store, asker: Asker, attempt_id: str, place: int, wrong: bool, sure: bool, kind: str = ""
) -> bool:
    """Take the answer to the moment at `place` (from 1); says whether what was said is what is kept.

    The first answer stands: the same again changes nothing, another one neither. `NotFoundError` for anybody else's
    attempt, `ConflictError` for a moment that is not due yet.
    """
    with store.writing(asker.school.id) as work:
        known = own_attempt(work, asker.person_id, attempt_id)
        moments = order_of(lesson_of(work, known.attempt), known.attempt)
        if not 1 <= place <= min(len(known.answers) + 1, len(moments)):
            raise ConflictError(N_("This moment is not due. Open the lesson again to see where you are."))
        answer = Answer(moments[place - 1].id, wrong, sure, kind if wrong else "")
        if place <= len(known.answers):
            return known.answers[place - 1] == answer
        work.spotting.add_answer(attempt_id, place, answer, asker.now)
        work.commit()
    return True


def own_attempt(work: Work, person_id: str, attempt_id: str) -> AnsweredAttempt:
    """One's own attempt; `NotFoundError` for anybody else's."""
    known = work.spotting.by_id(attempt_id)
    if known is None or known.attempt.person_id != person_id:
        raise NotFoundError
    return known
