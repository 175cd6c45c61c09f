"""The application, put together once: settings, store and clock in, a guarded web application out."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

import anyio.to_thread
from fastapi import FastAPI
from fastapi.staticfiles import StaticFiles

from app.api import every_noun
from app.api.pace import Pace
from app.clock import Clock, system_clock
from app.pages import every_page
from app.settings import Settings
from app.storage.engine import open_engine
from app.storage.work import Store
from app.web.door import every_route, refuse_unguarded
from app.web.errors import add_error_pages
from app.web.headers import SafeHeaders
from app.web.pages import APP
from app.wording.languages import Languages, own_languages

MOST_BODY_BYTES = 8 * 1024 * 1024
QUIET = {"tracing": False, "metrics": False, "logs": False, "operation_spans": False}


def create_app(settings: Settings, now: Clock = system_clock, languages: Languages | None = None) -> FastAPI:
    """Build the web application; raises `UnguardedRouteError` if a route does not say who may use it.

    `app.state.ask` has work done soon; until a queue is put there, it is done when a worker looks.
    """
    app = FastAPI(
        title="Throughline",
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        telemetry=QUIET,
        max_body_size=MOST_BODY_BYTES,
        lifespan=_few_lanes(settings),
    )
    app.state.settings, app.state.now = settings, now
    app.state.languages, app.state.ask = languages or own_languages(), nobody_works
    app.state.store = Store(open_engine(settings.database))
    app.state.pace = Pace(settings.requests_a_minute)
    # Routes are tried in their order; programs ask most often.
    for noun in (*every_noun(), *every_page()):
        app.include_router(noun.router)
    add_error_pages(app)
    refuse_unguarded(app)
    app.state.paths = frozenset(route.path for route in every_route(app))
    app.mount("/static", StaticFiles(directory=APP / "static"), name="static")
    app.add_middleware(SafeHeaders)
    return app


def nobody_works(job: str, school_id: str, about: str) -> None:
    """There is no queue."""


def _few_lanes(settings: Settings):  # noqa: ANN202
    """Threads that share SQLite fight for the interpreter: two are fastest, one works while the other's disk writes."""

    @asynccontextmanager
    async def lanes(_: FastAPI) -> AsyncIterator[None]:
        limiter = anyio.to_thread.current_default_thread_limiter()
        limiter.total_tokens = 2 if settings.database.startswith("sqlite") else 8
        yield

    return lanes
