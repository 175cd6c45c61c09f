"""Every text of every page, refused form and mail goes through the catalogue: shown in a language made for this test."""

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from datetime import date

import pytest
from fastapi.testclient import TestClient

from app.files import readiness_pdf
from app.files.requirements import requirements_from_file
from app.main import create_app
from app.permissions import ACTS, ANYONE, LINK_HOLDER, ROLES
from app.settings import ROOT, Settings
from app.storage.engine import open_engine
from app.storage.work import Store
from app.use_cases.demo import SCHOOL, fill_school
from app.web.door import act_of, every_route
from app.wording.standing_table import table
from assessments.hours.assessing import assess
from assessments.hours.entry import Entry
from tests.app.conftest import Databases
from tests.app.pages.conftest import NOW, OTHER, Town
from tests.app.pages.disguise import (
    LOCALE,
    PRODUCT,
    Known,
    Seen,
    disguise,
    disguised,
    edition_names,
    machine_words,
    movement_words,
    typed_texts,
)
from tests.app.pages.test_every_door import NOBODYS, OWN, address
from tests.app.pages.test_exams import ID, set_with_sheets

LEFT_OUT = ("/sign-out", "/sign-out-everywhere")
ASKED = {"accept": "text/html", "accept-language": f"{LOCALE},en;q=0.5"}
MOST_OF_A_KIND, MOST_EXERCISES = 2, 25
FIELDS_KEPT = ("form_token", "id", "version", "known")


@pytest.fixture(scope="module")
def disguised_school(tmp_path_factory: pytest.TempPathFactory) -> tuple[Databases, str]:
    """A school that is filled once and copied for each test. Texts come from no database, so one kind is enough."""
    databases = Databases("sqlite", tmp_path_factory.mktemp("disguised"))
    url = databases.ready()
    engine = open_engine(url)
    fill_school(Store(engine), replace(SCHOOL, locale=LOCALE), NOW, trainees=2)
    Store(engine).add_school(OTHER)
    engine.dispose()
    return databases, url


@pytest.fixture
def disguised_town(disguised_school: tuple[Databases, str]) -> Iterator[Town]:
    databases, filled = disguised_school
    url = databases.copy_of(filled)
    app = create_app(Settings(url), now=lambda: NOW, languages=disguise())
    with TestClient(app) as running:
        yield Town(app, running)
    app.state.store.engine.dispose()


class Reader:
    """Reads pages as one role, follows their links, sends their forms, and notes every text that leaks."""

    def __init__(self, town: Town, client: TestClient, role: str, known: dict[str, Known]) -> None:
        self.client, self.role, self.known = client, role, known
        self.patterns = [re.compile(re.sub(r"{\w+}", "[^/]+", route.path)) for route in every_route(town.app)]
        self.leaks: Counter[tuple[str, str]] = Counter()
        self.statuses: Counter[int] = Counter()
        self.forms: dict[str, dict[str, list[str]]] = {}
        self.links: dict[str, None] = {}
        self.followed: Counter[str] = Counter()

    def open(self, method: str, path: str, form: dict | None = None) -> None:
        answer = self.client.request(method, path, data=form, headers=ASKED)
        if answer.status_code == 303 and not answer.headers["location"].startswith("/sign-in"):
            answer = self.client.get(answer.headers["location"], headers=ASKED)
        if "text/html" not in answer.headers.get("content-type", ""):
            return
        assert f'<html lang="{LOCALE}">' in answer.text
        self.statuses[answer.status_code] += 1
        seen = Seen(answer.text)
        for text in seen.texts:
            for leak in self.words(path).leaks(text):
                self.leaks[(f"{method} {self.pattern(path)}", leak)] += 1
        for action, fields in seen.forms:
            self.forms.setdefault(action, fields)
        self.links |= dict.fromkeys(link for link in seen.links if link.startswith("/"))

    def words(self, path: str) -> Known:
        return next(known for start, known in self.known.items() if path.startswith(start))

    def pattern(self, path: str) -> str:
        own = path.partition("?")[0]
        return next((found.pattern for found in self.patterns if found.fullmatch(own)), own)

    def follow(self) -> None:
        """Open what the pages lead to, but only so many of one kind."""
        waiting = list(self.links)
        for link in waiting:
            kind = self.pattern(link)
            self.followed[kind] += 1
            many = self.role == "examiner" and "exercises" in kind
            if self.followed[kind] <= (MOST_EXERCISES if many else MOST_OF_A_KIND):
                self.open("GET", link)
        if len(self.links) > len(waiting):
            seen, self.links = self.links, dict.fromkeys(link for link in self.links if link not in waiting)
            self.follow()
            self.links = seen | self.links

    def send(self) -> None:
        """Send every form: without its token, emptied, filled with nonsense, and twice as it stands."""
        for action, fields in list(self.forms.items()):
            if action in LEFT_OUT:
                continue
            kept = {name: some for name, some in fields.items() if name in FIELDS_KEPT}
            emptied = {name: [""] for name in fields if name not in FIELDS_KEPT}
            nonsense = {name: ["9" * 450] for name in emptied}
            for filled in ({}, kept, kept | emptied, kept | nonsense, fields, fields):
                self.open("POST", action, filled)


def own_addresses(town: Town, role: str) -> list[str]:
    """The addresses of the pages that a role may open."""
    routes = [(route.path, act_of(route)) for route in every_route(town.app) if "GET" in route.methods]
    return [address(path, OWN) for path, act in routes if act in (ANYONE, LINK_HOLDER) or role in ACTS.get(act, ())]


def known_words(town: Town) -> dict[str, Known]:
    """What people typed and files hold, by the pages on which it may stand."""
    texts = [*typed_texts(town.store), PRODUCT]
    names = edition_names(town.store, SCHOOL.id)
    return {
        "/repertoire": Known(texts, movement_words(town.store, SCHOOL.id)),
        "/springs": Known(texts, machine_words(town.store, SCHOOL.id)),
        "/editions": Known(texts, names),
        "/drafts": Known(texts, names),
        "/": Known(texts),
    }


def readers(town: Town) -> Iterator[Reader]:
    """A reader for each role and for nobody, who has read what is theirs."""
    known = known_words(town)
    for role in ("nobody", *ROLES):
        client = town.visitor() if role == "nobody" else town.as_role(role)
        reader = Reader(town, client, role, known)
        for path in (*own_addresses(town, role), address("/trainees/{enrolment_id}", NOBODYS), "/no-such-page"):
            reader.open("GET", path)
        reader.follow()
        yield reader


def no_leaks(leaks: Counter[tuple[str, str]]) -> None:
    shown = "\n".join(f"{where}: {leak!r} ({times})" for (where, leak), times in sorted(leaks.items()))
    assert not leaks, f"{len(leaks)} texts left the catalogue out:\n{shown}"


def test_every_page_and_refusal_speaks_the_readers_language(disguised_town: Town, form_token) -> None:  # noqa: ANN001
    director = disguised_town.as_role("director")
    token = form_token(director, "/exams/new")
    director.fill = lambda path, **typed: director.post(path, data={"form_token": token} | typed)
    set_with_sheets(disguised_town, director, 3, 0)
    asked = {"outcome": "pass", "reason": "", "refer_parts": "x1", "void_cause": "illness", "known": "0"}
    early = director.post(f"/exams/{ID}/decision", data={"form_token": token} | asked)
    leaks, statuses = Counter(), Counter()
    known = known_words(disguised_town)["/"]
    for text in Seen(early.text).texts:
        leaks.update(("an early decision", leak) for leak in known.leaks(text))
    for reader in readers(disguised_town):
        reader.send()
        leaks += reader.leaks
        statuses += reader.statuses
    no_leaks(leaks)
    assert statuses[200] > 150
    assert all(statuses[status] for status in (403, 404, 410, 422))


def test_the_host_reads_mail_and_page_in_the_schools_language(disguised_town: Town, form_token) -> None:  # noqa: ANN001
    trainee = disguised_town.as_role("trainee")
    session = {
        "form_token": form_token(trainee, "/today"), "id": "early", "version": "0", "day": "2026-11-24", "start": "05:00",
        "end": "06:00", "host": "host-1", "activity-0": "observation", "apparatus-0": "reformer",
    }  # fmt: skip
    assert trainee.post("/today", data=session).status_code == 303
    known = known_words(disguised_town)
    with disguised_town.store.reading(SCHOOL.id) as work:
        mail = work.mail.newest(1)[0]
    address_in_mail = re.search(r"\S+(/h/\S+)", mail.words)
    leaks = Counter()
    for text in (mail.subject, mail.words.replace(address_in_mail[0], "")):
        leaks.update(("the mail to the host", leak) for leak in Known([*known_names(disguised_town)]).leaks(text))
    host = Reader(disguised_town, disguised_town.visitor(), "nobody", known)
    host.open("GET", address_in_mail[1])
    host.send()
    no_leaks(leaks + host.leaks)
    assert host.statuses[422] >= 1


def known_names(town: Town) -> list[str]:
    """Names of people and of the school; the mail itself is in the database and must not excuse itself."""
    with town.store.reading(SCHOOL.id) as work:
        return [SCHOOL.name, *work.people.names().values()]


def test_the_readiness_pdf_speaks_the_readers_language(disguised_town: Town, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the typesetter is given; the template itself holds no text."""
    given: list[dict] = []
    whole = readiness_pdf.made_pdf
    monkeypatch.setattr(
        readiness_pdf, "made_pdf", lambda name, data, at: (given.append(data), whole(name, data, at))[1]
    )
    answer = disguised_town.as_role("trainee").get("/readiness.pdf")
    assert answer.content.startswith(b"%PDF")
    (data,) = given
    assert data.pop("lang") == LOCALE
    known = known_words(disguised_town)["/"]
    no_leaks(Counter(("the PDF", leak) for text in all_texts(data) for leak in known.leaks(text)))


def all_texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from all_texts(inner)


def test_the_command_line_speaks_the_language_of_its_environment() -> None:
    language = disguise().of(LOCALE)
    requirements = requirements_from_file(ROOT / "seed_data" / "requirements" / "comprehensive.yaml")
    what = ({"activity": ("observation",), "apparatus": ("mat",)}, {"activity": ("sailing",)})
    log = [Entry(str(number), date(2026, 3, 2), 60, "signed_off", fields) for number, fields in enumerate(what)]
    standing = assess(requirements, log, as_of=date(2026, 11, 25), enrolled=date(2026, 1, 1))
    known = Known([requirements.title, *(one.title for one in (*requirements.categories, *standing.rules))])
    shown = table("Ida Marlowe", requirements, standing, language)
    assert len(shown.splitlines()) > 20
    no_leaks(Counter(("a standing", leak) for leak in known.leaks(shown.replace("Ida Marlowe", ""))))


def test_the_check_finds_a_text_that_was_left_out() -> None:
    known = Known(["Ida Marlowe", "mat", "Footwork on the toes"])
    assert known.leaks(disguised("Sent to {name}").format(name="Ida Marlowe")) == []
    assert known.leaks(disguised("{time} to do").format(time="12 h")) == ["12 h"]
    assert known.leaks("mat") == ["mat"]
    assert known.leaks("Footwork on the toes, 3") == []
    assert Seen('<p title="A word">More <b>words</b></p><script>none</script>').texts == ["A word", "More ", "words"]
