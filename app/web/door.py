"""The door every route goes through: it names the act it needs, or the app does not start."""

from collections.abc import Callable, Iterable, Iterator

from fastapi import APIRouter, FastAPI
from fastapi.responses import HTMLResponse
from starlette.routing import BaseRoute, Mount

from app.permissions import ACTS, ANYONE, LINK_HOLDER
from curriculum.faults import ThroughlineError

MARK = "x-may"


class UnguardedRouteError(ThroughlineError):
    """A route that does not say who may use it."""


class Pages:
    """Routes of one noun; each says with `may` which act of the permission table it is."""

    def __init__(self) -> None:
        self.router = APIRouter(default_response_class=HTMLResponse)

    def get(self, path: str, *, may: str) -> Callable[[Callable], Callable]:
        return self._route("GET", path, may)

    def post(self, path: str, *, may: str) -> Callable[[Callable], Callable]:
        return self._route("POST", path, may)

    def _route(self, method: str, path: str, may: str) -> Callable[[Callable], Callable]:
        def register(handler: Callable) -> Callable:
            self.router.add_api_route(path, handler, methods=[method], openapi_extra={MARK: may})
            return handler

        return register


def act_of(route: object) -> str | None:
    """The act a route declares, or None."""
    return (getattr(route, "openapi_extra", None) or {}).get(MARK)


def refuse_unguarded(app: FastAPI) -> None:
    """Raise `UnguardedRouteError` for any route whose act is missing or unknown."""
    known = {*ACTS, ANYONE, LINK_HOLDER}
    for route in every_route(app):
        if act_of(route) not in known:
            raise UnguardedRouteError(f"the route {route.path} does not declare who may use it")


def every_route(app: FastAPI) -> list[BaseRoute]:
    """Every route that answers, inside included routers too; mounted files are not routes."""
    return list(_within(app.routes))


def _within(routes: Iterable[BaseRoute]) -> Iterator[BaseRoute]:
    for route in routes:
        included = getattr(route, "original_router", None)
        if included is not None:
            yield from _within(included.routes)
        elif not isinstance(route, Mount):
            yield route
