"""Close a question about the log with what was answered; it stays on record and is not asked again."""

from app.queries.questions import CLOSED, open_questions
from app.storage.work import Store
from app.use_cases.asker import Asker
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

MOST_LETTERS = 500


def close_question(store: Store, asker: Asker, question_id: str, answer: str) -> None:
    """Raises `NotFoundError` where it is not open, and `RefusedError` without an answer that can be kept."""
    answer, place = answer.strip(), f"answer-{question_id}"
    if not answer:
        raise RefusedError([Fault("answer", N_("say what was answered, or why it needs no answer"), {}, place)])
    if len(answer) > MOST_LETTERS:
        said = N_("too long: {most} letters at most")
        raise RefusedError([Fault("answer", said, {"most": MOST_LETTERS}, place)])
    with store.writing(asker.school.id) as work:
        found = open_questions(work, asker.today, asker.school.time_zone).get(question_id)
        if found is None:
            raise NotFoundError(N_("This question is not open any more."))
        body = {"question": found.kind, "who": found.who, "sessions": list(found.sessions), "answer": answer}
        work.record.append(CLOSED, question_id, asker.person_id, asker.now, body)
        work.commit()
