"""Own exams as calendar files: an examiner's and a candidate's."""

from fastapi.responses import Response

from app.web.door import Pages
from app.web.exam_calendar import candidate_calendar, examiner_calendar
from app.web.visit import Here

pages = Pages()


@pages.get("/my-exams.ics", may="score own exams")
def examiner(visit: Here) -> Response:
    with visit.store.reading(visit.school_id) as work:
        return examiner_calendar(visit, work)


@pages.get("/my-practicals.ics", may="see own practicals")
def candidate(visit: Here) -> Response:
    with visit.store.reading(visit.school_id) as work:
        return candidate_calendar(visit, work)
