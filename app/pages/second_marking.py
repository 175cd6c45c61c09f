"""The exams that a further examiner also marks, for the director."""

from fastapi.responses import Response

from app.queries.second_marking import sample_overview
from app.use_cases.sampling import draw_random_share
from app.web.door import Pages
from app.web.visit import Here
from curriculum.faults import N_

pages = Pages()


@pages.get("/second-marking", may="set exams")
def sample(visit: Here) -> Response:
    with visit.store.reading(visit.school_id) as work:
        overview = sample_overview(work, visit.person.id, visit.language)
    return visit.show("second_marking/second_marking.html", overview=overview)


@pages.post("/second-marking/{practical_id}/drawn", may="set exams")
def draw(visit: Here, practical_id: str) -> Response:
    """Draw the random share of one edition, once."""
    draw_random_share(visit.store, visit.asker, practical_id)
    return visit.go("/second-marking", visit.say(N_("The random share is drawn; its seed stands below.")))
