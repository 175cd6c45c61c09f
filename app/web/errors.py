"""What a person sees when something can't be done, and the same as a problem document (RFC 9457) for programs."""

import logging
from dataclasses import dataclass, field

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, RedirectResponse, Response
from starlette.exceptions import HTTPException

from app.web.visit import SignInNeededError, Visit
from curriculum.faults import N_, ConflictError, NotAllowedError, NotFoundError, RefusedError, ThroughlineError

LOG = logging.getLogger("throughline")
STATUS: tuple[tuple[type[Exception], int], ...] = (
    (SignInNeededError, 401),
    (NotFoundError, 404),
    (NotAllowedError, 403),
    (ConflictError, 409),
    (RefusedError, 422),
    (RequestValidationError, 422),
    (ThroughlineError, 400),
)
HEADINGS = {
    400: N_("That could not be read"),
    401: N_("Please sign in"),
    403: N_("That is not yours to change"),
    404: N_("Nothing here"),
    405: N_("That can't be done here"),
    409: N_("Somebody was quicker"),
    422: N_("That could not be taken"),
    500: N_("Something broke on our side"),
}
SENTENCES = {
    401: N_("This page belongs to somebody who is signed in."),
    404: N_("There is no such page, or it is not for you to see."),
    500: N_("What you sent may not have been kept. Nothing was half done."),
}
WHAT_NEXT = {
    404: N_("Go back, or start again from the first page."),
    409: N_("Open the page again to see how it stands now."),
    500: N_("Please try once more; if it happens again, tell the school what you did and when."),
}


@dataclass(frozen=True, slots=True)
class ShownError:
    """An error as its page shows it."""

    heading: str
    sentence: str
    what_next: str
    links: list[tuple[str, str]] = field(default_factory=list)


def add_error_pages(app: FastAPI) -> None:
    """Answer every error of the family, and any other, with a page or a problem document."""
    for family in (ThroughlineError, RequestValidationError, HTTPException, Exception):
        app.add_exception_handler(family, answer)


def answer(request: Request, error: Exception) -> Response:
    """The answer to an error: the sign-in page, a page with a sentence, or a problem document."""
    status = status_of(error)
    if status >= 500:
        LOG.exception("%s %s failed", request.method, request.url.path, exc_info=error)
    wants_page = "text/html" in request.headers.get("accept", "*/*") and not request.url.path.startswith("/api/")
    if not wants_page:
        return _problem(status, error, request)
    if status == 401:
        return RedirectResponse("/sign-in", 303)
    return _page(request, status, error)


def status_of(error: Exception) -> int:
    """The HTTP status that says what kind of error it is."""
    if isinstance(error, HTTPException):
        return error.status_code
    return next((status for family, status in STATUS if isinstance(error, family)), 500)


def _sentence(status: int, error: Exception) -> str:
    own = str(error) if isinstance(error, ThroughlineError) else ""
    return own or SENTENCES.get(status, N_("The request could not be carried out."))


def _problem(status: int, error: Exception, request: Request) -> JSONResponse:
    body: dict[str, object] = {
        "type": "about:blank",
        "title": HEADINGS.get(status, N_("That could not be done")),
        "status": status,
        "detail": _sentence(status, error),
        "instance": request.url.path,
    }
    if isinstance(error, RefusedError):
        body["errors"] = [{"pointer": fault.field, "detail": fault.text()} for fault in error.faults]
    return JSONResponse(body, status, media_type="application/problem+json")


def _page(request: Request, status: int, error: Exception) -> Response:
    visit = Visit(request, request.app.state.store, request.app.state.settings, request.app.state.now())
    shown = ShownError(
        visit.say(HEADINGS.get(status, N_("That could not be done"))),
        visit.say(_sentence(status, error)),
        visit.say(WHAT_NEXT.get(status, N_("Go back and try again."))),
        [(visit.say(N_("To the first page")), "/")],
    )
    return visit.show("errors/error.html", status, error=shown)
