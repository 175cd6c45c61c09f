"""The walk through what a draft of the repertoire marks for the school to confirm."""

from fastapi.responses import Response

from app.queries.confirming import next_to_confirm
from app.use_cases.editions import confirm_fields
from app.web.door import Pages
from app.web.typed import whole_number
from app.web.visit import Here, Visit
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/drafts/{draft_id}/unconfirmed", may="write editions")
def walk(visit: Here, draft_id: str) -> Response:
    """The exercise asked for, or the first with something to confirm."""
    return _walk(visit, draft_id, visit.request.query_params.get("exercise", ""), [], 200)


@pages.post("/drafts/{draft_id}/unconfirmed", may="write editions")
def confirm(visit: Here, draft_id: str) -> Response:
    """Note what is right, and on to the next exercise."""
    exercise, version = visit.typed("exercise"), whole_number(visit.typed("version"))
    try:
        confirm_fields(visit.store, visit.asker, draft_id, exercise, frozenset(visit.form.get("fields", ())), version)
    except RefusedError as refusal:
        return _walk(visit, draft_id, exercise, visit.faults(refusal.faults), 422)
    return visit.go(f"/drafts/{draft_id}/unconfirmed?exercise={visit.typed('following')}", visit.say(N_("Confirmed.")))


def _walk(visit: Visit, draft_id: str, exercise: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        draft = work.editions.draft(draft_id)
    if draft is None or draft.kind != "repertoire":
        raise NotFoundError
    found = next_to_confirm(draft, exercise, visit.language)
    return visit.show("editions/confirming.html", status, draft=draft, found=found, faults=faults)
