"""Answers to what a device kept and sends later: taken, or not taken and why, in the reader's language."""

import json
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from fastapi.responses import JSONResponse, Response

from app.web.errors import HEADINGS, SENTENCES, status_of
from app.web.visit import Visit
from curriculum.faults import N_, ConflictError, Fault, RefusedError, ThroughlineError

JSON = "application/json"
LATEST = timedelta(days=60)
MOST_AT_ONCE = 50
MOST_FIELDS = 80


def from_outbox(visit: Visit) -> bool:
    """Whether the device sends this by itself, so that nobody waits for a page."""
    return visit.request.headers.get("accept") == JSON


def taken_or_why(visit: Visit, act: Callable[[], object]) -> Response:
    """204 when the act was done (now or before), else 409 or 422 with `reasons`, sentences for people."""
    try:
        act()
    except RefusedError as refusal:
        return JSONResponse({"reasons": [one.text for one in visit.faults(refusal.faults)]}, 422)
    except ConflictError as conflict:
        return JSONResponse({"reasons": [visit.say(str(conflict))]}, 409)
    return Response(status_code=204)


def sent_items(text: str) -> list[dict[str, str]]:
    """What a device sends together: a JSON list of objects, each the fields of one form as text, without what no database
    keeps. Refuses all of it if it is no such list, or too long a one."""
    try:
        items = json.loads(text or "[]")
    except (ValueError, RecursionError):
        items = None
    if not isinstance(items, list) or not all(map(_is_form, items)):
        raise RefusedError([Fault("damaged", N_("this is no list of forms"), field="items")])
    if len(items) > MOST_AT_ONCE:
        raise RefusedError([Fault("too-many", N_("at most {most} at once"), {"most": MOST_AT_ONCE}, field="items")])
    return [{name: _kept(value) for name, value in one.items()} for one in items]


def problem_of(  # noqa: PLR0913 - what the problem is about
    visit: Visit, place: int, id: str, instance: str, error: Exception | None, faults: tuple[Fault, ...]
) -> dict[str, object]:
    """Why what was sent at this place was not taken, as a problem (RFC 9457) with its places."""
    status = status_of(error)
    own = str(error) if isinstance(error, ThroughlineError) and not faults else ""
    return {
        "type": "about:blank",
        "title": visit.say(HEADINGS[status]),
        "status": status,
        "detail": visit.say(own or SENTENCES.get(status, HEADINGS[status])),
        "instance": instance,
        "id": id,
        "errors": [
            {"pointer": f"#/{place}/{one.field}", "field": one.field, "detail": one.text}
            for one in visit.faults(faults)
        ],
    }


def _is_form(item: object) -> bool:
    return (
        isinstance(item, dict) and len(item) <= MOST_FIELDS and all(isinstance(value, str) for value in item.values())
    )


def _kept(text: str) -> str:
    """Without the zero character and halves of characters."""
    return text.replace("\x00", "").encode("utf-8", "ignore").decode()


def moment_said(text: str, now: datetime) -> datetime:
    """When a device says that something was done (ISO 8601, UTC); its clock may be wrong, so never later than now, never
    longer ago than anything may wait, and now where it says nothing that can be read."""
    try:
        said = datetime.fromisoformat(text.replace("Z", "+00:00"))
    except ValueError:
        return now
    return min(max(said if said.tzinfo else said.replace(tzinfo=UTC), now - LATEST), now)
