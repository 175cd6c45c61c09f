"""Programs that ask in somebody's name, at the demo school."""

from collections.abc import Callable

import pytest
from fastapi.testclient import TestClient

from app.main import create_app
from app.permissions import scopes_for
from app.settings import Settings
from app.use_cases.asker import Asker
from app.use_cases.demo import SCHOOL
from app.use_cases.tokens import MakeToken, make_token
from app.wording.languages import ENGLISH
from tests.app.pages.conftest import EMAILS, NOW, Town, filled, form_token

__all__ = ["filled", "form_token"]
Program = Callable[..., TestClient]


@pytest.fixture(scope="module")
def town(database_urls, filled):  # noqa: ANN001, ANN201, F811
    url = database_urls.copy_of(filled)
    app = create_app(Settings(url), now=lambda: NOW)
    yield Town(app)
    app.state.store.engine.dispose()
    database_urls.drop(url)


@pytest.fixture(scope="module")
def program(town: Town) -> Program:
    """A client with a token of somebody in this role, for all that the role can give or for some scopes."""
    number = iter(range(1000))

    def make(role: str, *scopes: str) -> TestClient:
        with town.store.reading(SCHOOL.id) as work:
            person = work.people.by_email(EMAILS[role])
            roles = frozenset(work.people.roles(person.id))
        asker = Asker(SCHOOL, person.id, person.name, NOW, ENGLISH)
        request = MakeToken(f"{next(number):032x}", "a test", frozenset(scopes) or scopes_for(roles), 30)
        secret = make_token(town.store, asker, roles, request)
        return TestClient(town.app, headers={"authorization": f"Bearer {secret}"})

    return make
