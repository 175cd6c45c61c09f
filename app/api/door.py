"""The door of the programs' routes: each names its act and its scope, and what it answers."""

from collections.abc import Callable
from http import HTTPStatus

from fastapi import APIRouter
from fastapi.responses import JSONResponse

from app.permissions import SCOPES
from app.web.door import MARK, UnguardedRouteError

PREFIX = "/api/v1"
SCOPE_MARK = "x-scope"
SECURITY = "token"
PROBLEM = {"$ref": "#/components/schemas/Problem"}
# What any route may answer besides what it is for.
USUAL = (401, 403, 404, 422, 429)
MEANINGS = {
    401: "No token, or one that is unknown or has ended.",
    403: "The token was not given this scope, or this is not the person's to change.",
    404: "There is no such thing, or it is not for this person to see.",
    409: "Something else stands under this id, or it was decided meanwhile.",
    412: "It has changed since it was read: read it again.",
    422: "What was sent can't be taken; every reason at once, each with a JSON pointer to its place.",
    429: "The token has asked too often; `Retry-After` says for how many seconds to wait.",
    428: "`If-Match` is missing: say which version you have read.",
}


class Api:
    """Routes of one noun. `scope` must open the act that `may` names, or the app does not start."""

    def __init__(self, noun: str) -> None:
        self.noun = noun
        self.router = APIRouter(default_response_class=JSONResponse)

    def get(self, path: str, **said: object) -> Callable[[Callable], Callable]:
        return self.route("GET", path, **said)

    def post(self, path: str, **said: object) -> Callable[[Callable], Callable]:
        return self.route("POST", path, **said)

    def put(self, path: str, **said: object) -> Callable[[Callable], Callable]:
        return self.route("PUT", path, **said)

    def route(  # noqa: PLR0913 - what a route says of itself
        self, method: str, path: str, *, may: str, scope: str, answers: object = None, status: int = 200,
        also: dict | None = None, errors: tuple[int, ...] = (),
    ) -> Callable[[Callable], Callable]:  # fmt: skip
        """`answers` is the model of the answer, `also` further answers by status, `errors` problems besides the usual."""
        if may not in SCOPES.get(scope, ()):
            raise UnguardedRouteError(f"the scope {scope} does not open what {path} does")

        def register(handler: Callable) -> Callable:
            self.router.add_api_route(
                f"{PREFIX}{path}",
                handler,
                methods=[method],
                response_model=answers,
                status_code=status,
                summary=(handler.__doc__ or "").strip().partition("\n")[0],
                description=(handler.__doc__ or "").strip(),
                operation_id=f"{self.noun}-{handler.__name__.replace('_', '-')}",
                tags=[self.noun],
                responses={**(also or {}), **{code: _problem(code) for code in sorted({*USUAL, *errors})}},
                openapi_extra={MARK: may, SCOPE_MARK: scope, "security": [{SECURITY: [scope]}]},
            )
            return handler

        return register


def scope_of(route: object) -> str:
    """The scope that a route of the programs declares."""
    return (getattr(route, "openapi_extra", None) or {}).get(SCOPE_MARK, "")


def _problem(status: int) -> dict:
    example = {"type": "about:blank", "title": HTTPStatus(status).phrase, "status": status, "detail": MEANINGS[status]}
    content = {"application/problem+json": {"schema": PROBLEM, "example": example}}
    return {"description": MEANINGS[status], "content": content}
