"""What trainees do when they study: answer (each answer is taken once), take the last back, choose what to study."""

from dataclasses import dataclass, replace
from datetime import date

from app.storage.recalls import RecallAnswer, Wish
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError
from curriculum.study.spacing import ANSWERS, replayed

LONGEST_ID = 36


@dataclass(frozen=True, slots=True)
class GivenAnswer:
    """An answer as it comes in; `id` was made with the form, or on a phone without reception."""

    id: str
    question: str
    answer: str
    day: date


def take_answer(store: Store, asker: Asker, given: GivenAnswer, questions: frozenset[str]) -> None:
    """Take an answer to one of the `questions`; the same answer again changes nothing.

    `RefusedError` with every reason; `ConflictError` if another answer came in under this id.
    """
    _refuse_unreadable(given)
    with store.writing(asker.school.id) as work:
        known = work.recalls.by_id(given.id)
        if known is not None:
            if (known.person_id, known.question, known.answer) != (asker.person_id, given.question, given.answer):
                raise ConflictError(N_("Another answer came in under this number. Open the page again."))
            return
        if given.question not in questions:
            raise RefusedError([Fault("no-question", N_("your edition does not have this question"), field="question")])
        number = work.recalls.next_number(asker.person_id)
        taken = RecallAnswer(
            given.id, asker.person_id, given.question, given.answer, given.day, number, asker.now.replace(microsecond=0)
        )
        work.recalls.put(taken)
        _remember_again(work, asker.person_id, given.question)
        work.commit()


def undo(store: Store, asker: Asker, answer_id: str) -> None:
    """Take the last answer back; again changes nothing. `ConflictError` if it isn't the last any more."""
    with store.writing(asker.school.id) as work:
        known = work.recalls.by_id(answer_id)
        if known is None or known.person_id != asker.person_id:
            raise NotFoundError
        if known.undone_at is not None:
            return
        if work.recalls.last_answer(asker.person_id) != known:
            raise ConflictError(N_("Only the last answer can be taken back, and another came in after this one."))
        work.recalls.put(replace(known, undone_at=asker.now.replace(microsecond=0)))
        _remember_again(work, asker.person_id, known.question)
        work.commit()


def choose(store: Store, asker: Asker, wish: Wish) -> None:
    """Study these apparatus up to this level from now on."""
    with store.writing(asker.school.id) as work:
        work.recalls.put_wish(asker.person_id, wish)
        work.commit()


def _refuse_unreadable(given: GivenAnswer) -> None:
    faults = []
    if not 0 < len(given.id) <= LONGEST_ID:
        faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
    if given.answer not in ANSWERS:
        faults.append(Fault("no-answer", N_("say how well you knew it"), field="answer"))
    if faults:
        raise RefusedError(faults)


def _remember_again(work: Work, person_id: str, question: str) -> None:
    """From all standing answers in the order of their days, so that a late one from a phone falls into its place."""
    answers = work.recalls.answers(person_id, question)
    work.recalls.remember(person_id, question, replayed((one.answer, one.day) for one in answers))
