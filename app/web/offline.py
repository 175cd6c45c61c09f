"""Answers to what a device kept and sends later: taken, or not taken and why, in the reader's language."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from fastapi.responses import JSONResponse, Response

from app.web.visit import Visit
from curriculum.faults import ConflictError, RefusedError

JSON = "application/json"
LATEST = timedelta(days=60)


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


def moment_said(text: str, now: datetime) -> datetime:
    """When a device says that something was done (ISO 8601, UTC); its clock may be wrong, so never later than now, never
    longer ago than anything may wait, and now where it says nothing that can be read."""
    try:
        said = datetime.fromisoformat(text.replace("Z", "+00:00"))
    except ValueError:
        return now
    return min(max(said if said.tzinfo else said.replace(tzinfo=UTC), now - LATEST), now)
