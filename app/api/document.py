"""The OpenAPI document of all that programs can ask for; anybody may read it."""

import importlib
from functools import lru_cache

from fastapi import Request
from fastapi.openapi.utils import get_openapi

from app.api.door import SECURITY, Api
from app.api.shapes import Problem
from app.permissions import ANYONE
from app.web.door import MARK

api = Api("document")
ABOUT = (
    "What the pages show and do, for a person's own programs. Make a token under your name at the top of any page, and "
    "send it as `Authorization: Bearer …`. A token opens what its scopes name and its person may do. Errors are problem "
    "documents (RFC 9457). Days and times of day are the school's own."
)


@lru_cache(maxsize=1)
def document() -> dict:
    """The document, made once: routes do not change while the app runs."""
    nouns = importlib.import_module("app.api").every_noun()
    routes = [route for noun in nouns for route in noun.router.routes if route.include_in_schema]
    made = get_openapi(title="Throughline", version="1", description=ABOUT, routes=routes)
    parts = made.setdefault("components", {})
    parts["securitySchemes"] = {SECURITY: {"type": "http", "scheme": "bearer"}}
    problem = Problem.model_json_schema(ref_template="#/components/schemas/{model}")
    schemas = parts.setdefault("schemas", {})
    schemas.update(problem.pop("$defs", {}))
    schemas["Problem"] = problem
    return made


def openapi(request: Request) -> dict:
    """The OpenAPI document."""
    return document()


api.router.add_api_route(
    "/api/v1/openapi.json", openapi, methods=["GET"], include_in_schema=False, openapi_extra={MARK: ANYONE}
)
