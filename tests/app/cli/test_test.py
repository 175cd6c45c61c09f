"""The test command: what it says is missing, and that a run which must have it does not pass without it."""

import argparse
from pathlib import Path

import pytest

from app.cli import test as command


@pytest.fixture
def bare(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> pytest.MonkeyPatch:
    """A machine with neither PostgreSQL nor Chromium; pytest itself is never started, it would start this again."""
    for name in ("THROUGHLINE_TEST_POSTGRES", "THROUGHLINE_MUST_HAVE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setenv("PLAYWRIGHT_BROWSERS_PATH", str(tmp_path))
    monkeypatch.setattr(command.pytest, "main", lambda words: 0)
    return monkeypatch


def status() -> int:
    return command.run_tests(argparse.Namespace(pytest=[]))


def test_what_is_missing_is_named_in_a_line_each_and_the_rest_runs(
    bare: pytest.MonkeyPatch, capsys: pytest.CaptureFixture
) -> None:
    assert status() == 0
    said = capsys.readouterr().err.splitlines()
    assert [line.split(".")[0] for line in said] == [
        "PostgreSQL: not tried",
        "Chromium: not found, browser tests left out",
    ]


@pytest.mark.parametrize("name", ["chromium", "postgresql", "chromium,postgresql", "chromum"])
def test_what_must_be_there_and_is_not_fails_the_run(
    bare: pytest.MonkeyPatch, capsys: pytest.CaptureFixture, name: str
) -> None:
    bare.setenv("THROUGHLINE_MUST_HAVE", name)
    assert status() == 2
    assert capsys.readouterr().err.endswith(f"is not here: {name.replace(',', ', ')}. No test was run.\n")


def test_the_browser_that_playwright_installs_is_found(bare: pytest.MonkeyPatch, tmp_path: Path) -> None:
    path = tmp_path / "chromium-1200" / "chrome-linux64" / "chrome"
    path.parent.mkdir(parents=True)
    path.touch()
    bare.setenv("THROUGHLINE_MUST_HAVE", "chromium")
    assert (command.browser(), status()) == (str(path), 0)


def test_the_project_s_own_run_must_have_both() -> None:
    text = (command.ROOT / ".ci" / "run").read_text()
    assert "export THROUGHLINE_MUST_HAVE=chromium,postgresql\n" in text
