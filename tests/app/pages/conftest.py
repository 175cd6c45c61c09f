"""Two demo schools on one database, a fixed clock, and a browser-like client for each role."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime

import pytest
from fastapi.testclient import TestClient

from app.files.exam_papers import write_admission
from app.main import create_app
from app.settings import Settings
from app.storage.editions import EditionDraft
from app.storage.engine import open_engine
from app.storage.exam_papers import ADMISSION, ExamPaper
from app.storage.exams import Exam
from app.storage.work import School, Store
from app.use_cases.demo import PASSWORD, SCHOOL, fill_school
from app.web.visit import COOKIE
from app.web.visit import form_token as token_of
from assessments.practicals.admission import Admission
from tests.app.conftest import Databases

NOW = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)
OTHER = School("other", "other-school", "Tern Street", "Europe/Vienna", "en_GB")
EMAILS = {
    "director": "director@halden-row.example",
    "trainee": "trainee@halden-row.example",
    "examiner": "examiner@halden-row.example",
}


OPENED: set[str] = set()


@dataclass
class Town:
    """The application over both schools; `as_role` gives a client that is signed in.

    Everybody visits in the loop of `running`, as on a server; without it each request would start a loop of its own.
    """

    app: object
    running: TestClient | None = None

    def visitor(self) -> TestClient:
        client = TestClient(self.app, follow_redirects=False)
        client.portal = self.running.portal if self.running else None
        return client

    def as_role(self, role: str, school: School = SCHOOL) -> TestClient:
        client = self.visitor()
        typed = {"email": EMAILS[role], "password": PASSWORD}
        answer = client.post(f"/sign-in/{school.slug}", data=typed)
        assert answer.status_code == 303, answer.text
        return client

    @property
    def store(self) -> Store:
        return self.app.state.store


@pytest.fixture(scope="session")
def filled(database_urls: Databases) -> str:
    """The URL of a database with two small demo schools; copied for each test."""
    url = database_urls.ready()
    engine = open_engine(url)
    store = Store(engine)
    for school in (SCHOOL, OTHER):
        fill_school(store, school, NOW, trainees=2)
        _begin_draft(store, school)
        _set_exam(store, school)
    engine.dispose()
    return url


def _begin_draft(store: Store, school: School) -> None:
    """A draft of an edition, as a director leaves it."""
    with store.writing(school.id) as work:
        base = work.editions.by_id("requirements-2026-1")
        draft = EditionDraft("draft", base.kind, base.name, base.id, base.documents, 1, "director", NOW)
        work.editions.put_draft(draft)
        work.commit()


def _set_exam(store: Store, school: School) -> None:
    """An exam of the first trainee, this evening, not scored yet."""
    tasks = '{"lesson": ["reformer-footwork", "reformer-hundred"]}'
    with store.writing(school.id) as work:
        exam = Exam("exam", "enrolment-1", "practical-final", NOW.date(), 18 * 60, "Upper hall", tasks)
        work.exams.add(exam, ("examiner-1", "examiner-2"))
        admitted = write_admission(Admission(verdict="waived", reason="Late papers."))
        work.exam_papers.put(ExamPaper("exam", ADMISSION, 1, admitted, "director", NOW))
        work.commit()


@pytest.fixture
def town(database_urls: Databases, filled: str) -> Iterator[Town]:
    url = database_urls.copy_of(filled)
    app = create_app(Settings(url), now=lambda: NOW)
    with TestClient(app) as running:
        yield Town(app, running)
    app.state.store.engine.dispose()
    database_urls.drop(url)


@pytest.fixture
def form_token() -> Callable[[TestClient, str], str]:
    """The token of the form on a page.

    A page in its first use in this process is opened, and must hold the token of whoever is signed in; the same
    page is not opened again by the next test that only wants to send its form. A link's token stands on its page alone.
    """

    def find(client: TestClient, path: str) -> str:
        known = token_of(client.cookies.get(COOKIE, "").strip('"').partition(".")[2])
        if path.startswith("/h/") or path not in OPENED:
            found = re.search(r'name="form_token" value="(\w+)"', client.get(path).text).group(1)
            if path.startswith("/h/"):
                return found
            assert found == known
            OPENED.add(path)
        return known

    return find
