"""A school's archive: round trip equal, from an older shape, and refused whole when anything is wrong with it."""

import json
import zipfile
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.cli import run
from app.files.archive import write_archive
from app.storage.archiving import LEFT_OUT, table_names
from app.storage.engine import open_engine
from app.storage.migrating import migrate
from app.storage.work import Store
from app.use_cases.demo import SCHOOL, fill_school

NOW = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The archive of a small demo school."""
    folder = tmp_path_factory.mktemp("archive")
    url = f"sqlite:///{folder / 'school.db'}"
    engine = open_engine(url)
    migrate(engine)
    fill_school(Store(engine), SCHOOL, NOW, trainees=1)
    engine.dispose()
    assert command("export", SCHOOL.slug, "--to", str(folder / "school.zip"), database=url) == 0
    return folder / "school.zip"


@pytest.fixture
def empty(database_urls) -> str:  # noqa: ANN001
    return database_urls.ready()


@pytest.fixture(scope="module")
def nothing(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A database that should stay empty."""
    url = f"sqlite:///{tmp_path_factory.mktemp('nothing') / 'school.db'}"
    engine = open_engine(url)
    migrate(engine)
    engine.dispose()
    return url


def command(*words: str, database: str) -> int:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("THROUGHLINE_DATABASE", database)
        return run(["archive", *words])


def inside(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as opened:
        return {name: opened.read(name) for name in opened.namelist() if name != "manifest.json"}


def changed(path: Path, to: Path, name: str, content: bytes) -> Path:
    """A copy with one file in it replaced."""
    files = inside(path) | {"manifest.json": zipfile.ZipFile(path).read("manifest.json")}
    with zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED) as made:
        for one, kept in files.items():
            made.writestr(one, content if one == name else kept)
    return to


def test_a_school_comes_back_row_for_row(archive: Path, empty: str, tmp_path: Path, capsys) -> None:  # noqa: ANN001
    assert command("import", str(archive), database=empty) == 0
    assert "its record holds" in capsys.readouterr().out
    again = tmp_path / "again.zip"
    assert command("export", SCHOOL.slug, "--to", str(again), database=empty) == 0
    assert inside(again) == inside(archive)
    assert len(inside(again)) == len(table_names())
    assert command("import", str(archive), database=empty) == 2
    assert "it does not change one" in capsys.readouterr().err


def test_nothing_but_what_soon_ends_is_left_out() -> None:
    assert {"sign_in", "sign_in_attempt", "spot_code"} == LEFT_OUT


def test_an_archive_of_an_older_shape_is_brought_up_to_date(empty: str, tmp_path: Path) -> None:
    """At 0010 a session had no notes, an exam no sheet records, a school no certificates."""
    head = {"school_id": "a", "slug": "a", "name": "A", "revision": "0010", "made_at": NOW.isoformat()}
    school = {"id": "a", "slug": "a", "name": "A", "time_zone": "Europe/Oslo", "locale": "en"}
    person = {"school_id": "a", "id": "p", "name": "P", "email": "p@a.example", "password_hash": "x"}
    person |= {"joined_at": NOW.isoformat(), "left_at": None}
    tables = {"school": [school], "event_count": [{"school_id": "a", "last_number": 0}], "person": [person]}
    write_archive(tmp_path / "old.zip", head, tables.items())
    assert command("import", str(tmp_path / "old.zip"), database=empty) == 0
    store = Store(open_engine(empty))
    with store.reading("a") as work:
        assert work.people.by_id("p").email == "p@a.example"
        assert work.certificates.all() == []
    store.engine.dispose()


def _manifest(archive: Path, **changes: object) -> bytes:
    return json.dumps(json.loads(zipfile.ZipFile(archive).read("manifest.json")) | changes).encode()


@pytest.mark.parametrize(
    ("name", "content", "sentence"),
    [
        ("manifest.json", b"{}", "is no archive of a school"),
        ("manifest.json", b"[" * 50_000, "is no archive of a school"),
        ("manifest.json", {"version": 9}, "has form 9; this program reads form 1"),
        ("manifest.json", {"revision": "9999"}, "comes from a newer version"),
        ("manifest.json", {"tables": {"sqlite_master": [0, ""]}}, "table sqlite_master is damaged"),
        ("tables/person.jsonl", b"", "table person is damaged"),
        ("tables/person.jsonl", b"[1]\n", "table person, line 1: no JSON object"),
        ("tables/person.jsonl", b"\0" * 30_000_000, "table person is damaged"),
    ],
)
def test_what_is_wrong_is_refused_and_nothing_is_taken(  # noqa: PLR0913
    archive: Path,
    nothing: str,
    tmp_path: Path,
    capsys,
    name: str,
    content: bytes | dict,
    sentence: str,  # noqa: ANN001
) -> None:
    content = _manifest(archive, **content) if isinstance(content, dict) else content
    bad = changed(archive, tmp_path / "bad.zip", name, content)
    assert command("import", str(bad), database=nothing) == 2
    assert sentence in capsys.readouterr().err
    assert Store(open_engine(nothing)).schools() == ()


@pytest.mark.parametrize(
    ("table", "change", "sentence"),
    [
        ("event", {"actor": "somebody-else"}, "the record in it does not hold"),
        ("person", {"name": 3}, "don't fit the tables"),
        ("person", {"joined_at": "some day"}, "don't fit the tables"),
    ],
)
def test_what_was_tampered_with_is_not_taken(
    archive: Path, tmp_path: Path, nothing: str, capsys, table, change, sentence
) -> None:  # noqa: ANN001, PLR0913
    """Whoever changes a row and the archive's own sums is found by the tree of hashes, or by the tables."""
    files = inside(archive)
    tables = {
        name.removeprefix("tables/").removesuffix(".jsonl"): [json.loads(one) for one in content.splitlines()]
        for name, content in files.items()
    }
    tables[table][-1] |= change
    head = json.loads(_manifest(archive))
    head = {name: head[name] for name in ("school_id", "slug", "name", "revision", "made_at")}
    write_archive(tmp_path / "bad.zip", head, tables.items())
    assert command("import", str(tmp_path / "bad.zip"), database=nothing) == 2
    assert sentence in capsys.readouterr().err
    assert Store(open_engine(nothing)).schools() == ()


def test_a_file_that_is_none_and_a_school_that_is_none(tmp_path: Path, nothing: str, capsys) -> None:  # noqa: ANN001
    (tmp_path / "no.zip").write_text("no", "utf-8")
    assert command("import", str(tmp_path / "no.zip"), database=nothing) == 2
    assert command("import", str(tmp_path / "missing.zip"), database=nothing) == 2
    assert command("export", "nowhere", "--to", str(tmp_path / "x.zip"), database=nothing) == 2
    assert "no school here has this short name" in capsys.readouterr().err
    assert not (tmp_path / "x.zip").exists()
