"""What looks odd in the log, as questions a director may ask and close."""

from fastapi.responses import Response

from app.queries.questions import shown_questions
from app.use_cases.questions import close_question
from app.web.door import Pages
from app.web.visit import Here, Visit
from curriculum.faults import N_, RefusedError

pages = Pages()


@pages.get("/cohort/questions", may="ask about the log")
def questions(visit: Here) -> Response:
    """Every open question, the one that lapses first at the head."""
    return _questions(visit, [], 200)


@pages.post("/cohort/questions", may="ask about the log")
def close(visit: Here) -> Response:
    """Close one with what was answered."""
    question = visit.typed("question")
    try:
        close_question(visit.store, visit.asker, question, visit.typed(f"answer-{question}"))
    except RefusedError as refusal:
        return _questions(visit, visit.faults(refusal.faults), 422)
    return visit.go("/cohort/questions", visit.say(N_("Closed. The answer is on record, and it is not asked again.")))


def _questions(visit: Visit, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        found = shown_questions(work, visit.today, visit.school.time_zone, visit.language)
    chosen = visit.typed("question") if faults else ""
    answer = visit.typed(f"answer-{chosen}") if chosen else ""
    return visit.show("questions/questions.html", status, questions=found, faults=faults, chosen=chosen, answer=answer)
