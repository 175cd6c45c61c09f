"""What a person sees when something can't be done, and the same as a problem document (RFC 9457) for programs."""

import logging
from dataclasses import dataclass, field
from http import HTTPStatus

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, RedirectResponse, Response
from starlette.exceptions import HTTPException

from app.web.visit import SignInNeededError, Visit
from app.wording.faults import fault_text
from curriculum.faults import N_, ConflictError, NotAllowedError, NotFoundError, RefusedError, ThroughlineError


class StaleError(ConflictError):
    """What a program read has changed since; the message says what to do."""


class VersionNeededError(ThroughlineError):
    """A program did not say which version it has read."""


class TooManyRequestsError(ThroughlineError):
    """A program asks more often than it may; `seconds` until it may again."""

    def __init__(self, sentence: str, seconds: int) -> None:
        super().__init__(sentence)
        self.seconds = seconds


LOG = logging.getLogger("throughline")
STATUS: tuple[tuple[type[Exception], int], ...] = (
    (SignInNeededError, 401),
    (NotFoundError, 404),
    (NotAllowedError, 403),
    (StaleError, 412),
    (VersionNeededError, 428),
    (TooManyRequestsError, 429),
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
    412: N_("It has changed since"),
    422: N_("That could not be taken"),
    428: N_("Say which version you have read"),
    429: N_("Too many requests"),
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
    language = Visit(request, request.app.state.store, request.app.state.settings, request.app.state.now()).language
    body: dict[str, object] = {
        "type": "about:blank",
        "title": language(HEADINGS.get(status, N_("That could not be done"))),
        "status": status,
        "detail": language(_sentence(status, error)),
        "instance": request.url.path,
    }
    if isinstance(error, RefusedError):
        body["detail"] = language(N_("What is wrong stands under errors, each at its place."))
        body["errors"] = [
            {"pointer": _pointer(fault.field), "detail": fault_text(fault, language)} for fault in error.faults
        ]
    if isinstance(error, RequestValidationError):
        body["detail"] = language(N_("What is wrong stands under errors, each at its place."))
        body["errors"] = [
            {"pointer": "#" + "".join(f"/{place}" for place in one["loc"][1:]), "detail": one["msg"]}
            for one in error.errors()
        ]
    return JSONResponse(body, status, headers=_headers(status, error), media_type="application/problem+json")


def _headers(status: int, error: Exception) -> dict[str, str]:
    """What a program must be told besides: how to say who asks (RFC 6750), when to come again (RFC 9110)."""
    if isinstance(error, TooManyRequestsError):
        return {"retry-after": str(error.seconds)}
    return {"www-authenticate": "Bearer"} if status == HTTPStatus.UNAUTHORIZED else {}


def _pointer(field: str) -> str:
    """A form's field as a JSON pointer (RFC 6901): `minutes-0` is the minutes of the first part."""
    name, _, place = field.rpartition("-")
    return f"#/parts/{place}/{name}" if name and place.isdecimal() else f"#/{field}"


def _page(request: Request, status: int, error: Exception) -> Response:
    visit = Visit(request, request.app.state.store, request.app.state.settings, request.app.state.now())
    shown = ShownError(
        visit.say(HEADINGS.get(status, N_("That could not be done"))),
        visit.say(_sentence(status, error)),
        visit.say(WHAT_NEXT.get(status, N_("Go back and try again."))),
        [(visit.say(N_("To the first page")), "/")],
    )
    return visit.show("errors/error.html", status, error=shown)
