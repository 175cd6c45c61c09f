"""What host teachers told the school, for directors alone: worries, and sessions that were not theirs."""

from fastapi.responses import Response

from app.queries.worries import told_overview
from app.use_cases.telling_worries import close_worry
from app.web.door import Pages
from app.web.visit import Here, Visit
from curriculum.faults import N_, RefusedError

pages = Pages()


@pages.get("/worries", may="read worries")
def worries(visit: Here) -> Response:
    return _show(visit, "", [], 200)


@pages.post("/worries/{worry_id}", may="read worries")
def close(visit: Here, worry_id: str) -> Response:
    """Close one with what came of it."""
    try:
        close_worry(visit.store, visit.asker, worry_id, visit.typed(f"answer-{worry_id}"))
    except RefusedError as refusal:
        return _show(visit, worry_id, visit.faults(refusal.faults), 422)
    return visit.go("/worries", visit.say(N_("Closed. What came of it is on record.")))


def _show(visit: Visit, chosen: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        overview = told_overview(work, visit.school.time_zone, visit.language)
    answer = visit.typed(f"answer-{chosen}")
    return visit.show("worries/worries.html", status, overview=overview, chosen=chosen, answer=answer, faults=faults)
