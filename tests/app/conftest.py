"""A migrated database for each test, on SQLite always, on PostgreSQL where one is named in the environment."""

import os
import secrets
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import psycopg
import pytest
from argon2 import PasswordHasher
from sqlalchemy import make_url

from app.storage import engine
from app.storage.engine import open_engine
from app.storage.migrating import migrate
from app.storage.work import School, Store
from app.use_cases import signing_in

# Thousands of tests sign in: here a hash costs next to nothing. `test_sign_in` holds the product's own.
PRODUCTS_HASHER, signing_in.HASHER = signing_in.HASHER, PasswordHasher(time_cost=1, memory_cost=64, parallelism=1)
# Nor need what is thrown away wait for the disk. `test_engine` holds the product's own.
PRODUCTS_PRAGMAS = engine.PRAGMAS
engine.PRAGMAS = (*PRODUCTS_PRAGMAS, "synchronous=OFF")
POSTGRES = os.environ.get("THROUGHLINE_TEST_POSTGRES")
DATABASES = ["sqlite", "postgresql"] if POSTGRES else ["sqlite"]
HALDEN = School("halden", "halden-row", "Halden Row", "Europe/Oslo")
OTHER = School("other", "other-school", "The Other School", "Europe/Oslo")


class Databases:
    """Makes databases: empty ones, and copies of one that was migrated once."""

    def __init__(self, kind: str, folder: Path) -> None:
        self.kind, self.folder = kind, folder
        self.made: list[str] = []
        self.migrated: str | None = None

    def empty(self) -> str:
        return self._make(None)

    def ready(self) -> str:
        """The URL of a fresh database with every table in it."""
        if self.migrated is None:
            self.migrated = self.empty()
            opened = open_engine(self.migrated)
            migrate(opened)
            opened.dispose()
        return self._make(self.migrated)

    def copy_of(self, url: str) -> str:
        """The URL of a copy of a database that nobody has open."""
        return self._make(url)

    def drop(self, url: str) -> None:
        """Remove a database that a test is done with: thousands of copies would fill the disk."""
        name = make_url(url).database
        if self.kind == "sqlite":
            for path in self.folder.glob(f"{Path(name).name}*"):
                path.unlink()
        else:
            self._on_server(f'drop database "{name}" with (force)')
            self.made.remove(name)

    def drop_all(self) -> None:
        for name in self.made:
            self._on_server(f'drop database "{name}" with (force)')

    def _make(self, pattern: str | None) -> str:
        name = f"throughline_test_{secrets.token_hex(6)}"
        if self.kind == "sqlite":
            path = self.folder / f"{name}.db"
            if pattern:
                shutil.copy(make_url(pattern).database, path)
            return f"sqlite:///{path}"
        copied = f' template "{make_url(pattern).database}"' if pattern else ""
        self._on_server(f'create database "{name}"{copied}', copied and " strategy file_copy")
        self.made.append(name)
        return make_url(POSTGRES).set(database=name).render_as_string(hide_password=False)

    def _on_server(self, statement: str, newer: str = "") -> None:
        """`newer` is said too where the server is of version 15: a copy of files takes half as long as one of pages."""
        with psycopg.connect(POSTGRES, autocommit=True) as server:
            server.execute(statement + (newer if server.info.server_version >= 150_000 else ""))


@pytest.fixture(scope="session", params=DATABASES)
def database_urls(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Databases]:
    databases = Databases(request.param, tmp_path_factory.mktemp("databases"))
    yield databases
    databases.drop_all()


@pytest.fixture
def store(database_urls: Databases) -> Iterator[Store]:
    """An empty store with two schools, `halden` and `other`."""
    url = database_urls.ready()
    opened = Store(open_engine(url))
    for school in (HALDEN, OTHER):
        opened.add_school(school)
    yield opened
    opened.engine.dispose()
    database_urls.drop(url)


@pytest.fixture
def now() -> datetime:
    return datetime(2026, 3, 2, 9, 30, tzinfo=UTC)
