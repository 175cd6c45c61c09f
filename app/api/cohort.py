"""The cohort: every trainee with the figures of their line."""

from datetime import date

from pydantic import Field

from app.api.asking import Asked
from app.api.door import Api
from app.api.shapes import Answer, Cursor, Limit, Page, page
from app.queries.enrolled import enrolled_now
from app.queries.standing import summaries_of
from app.use_cases.standings import keep_standings

api = Api("cohort")


class TraineeFigures(Answer):
    """One enrolment; amounts in minutes of credit."""

    enrolment: str
    name: str
    enrolled: date
    requirements: str = Field(description="The id of the edition the trainee is on.")
    ends: date | None = Field(description="The last day that counts; null without a window.")
    needed_minutes: int
    credited_minutes: int
    waiting_minutes: int
    further_minutes: int


@api.get("/trainees", may="see the cohort", scope="cohort:read", answers=Page[TraineeFigures])
def trainees(visit: Asked, limit: Limit = 50, cursor: Cursor = "") -> dict:
    """Every trainee who is at the school; only changed standings are solved again."""
    with visit.store.reading(visit.school_id) as work:
        names, enrolments = work.people.names(), enrolled_now(work)
        part = page(enrolments, lambda one: one.id, limit, cursor)
        found = summaries_of(work, part["items"], visit.today)
    keep_standings(visit.store, visit.school_id, {one: kept for one, (_, kept) in found.items() if kept})
    items = []
    for one in part["items"]:
        summary = found[one.id][0]
        items.append(
            TraineeFigures(
                enrolment=one.id, name=names[one.person_id], enrolled=one.enrolled_on, requirements=one.requirements_id,
                ends=date.fromisoformat(summary.ends) if summary.ends else None, needed_minutes=summary.needed,
                credited_minutes=summary.credited, waiting_minutes=summary.waiting, further_minutes=summary.further,
            )
        )  # fmt: skip
    return part | {"items": items}
