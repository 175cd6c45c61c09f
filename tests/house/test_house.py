"""House rules that a reader can rely on: names, places, sizes, and what the README promises."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGES = ("app", "assessments", "curriculum")
DRAWERS = {"utils", "util", "helpers", "helper", "common", "misc", "base", "core", "crud", "services", "schemas"}
SOURCES = sorted(path for package in PACKAGES for path in (ROOT / package).rglob("*.py"))


def test_there_is_no_drawer_for_odds_and_ends() -> None:
    assert [path for path in SOURCES if path.stem in DRAWERS or path.parent.name in DRAWERS] == []


def test_files_are_short() -> None:
    lengths = {path.relative_to(ROOT): len(path.read_text().splitlines()) for path in SOURCES}
    assert {str(path): lines for path, lines in lengths.items() if lines > 320} == {}


def test_no_function_imports() -> None:
    """Imports stand at the top, where a reader and the import contracts see them."""
    found = []
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                found += [
                    f"{path}:{inner.lineno}"
                    for inner in ast.walk(node)
                    if isinstance(inner, ast.Import | ast.ImportFrom)
                ]
    assert found == []


def test_every_module_says_what_it_is() -> None:
    assert [str(path) for path in SOURCES if not ast.get_docstring(ast.parse(path.read_text()))] == []


@pytest.mark.parametrize("command", ["python3 -m app", "python3 -m app test"])
def test_the_readme_names_both_commands(command: str) -> None:
    assert f"\n    {command}\n" in (ROOT / "README.md").read_text()


def test_every_file_of_the_one_guess_table_is_there() -> None:
    table = (ROOT / "DEVELOPERS.md").read_text().split("## To change …, open …")[1].split("\n## ")[0]
    named = re.findall(r"`([\w/.\-]+)`", table)
    assert len(named) >= 10
    assert [name for name in named if not (ROOT / name).exists()] == []


def test_every_dependency_has_its_reason() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text().split("## What we lean on")[1]
    declared = re.findall(
        r'^  "([A-Za-z0-9\-]+)', (ROOT / "pyproject.toml").read_text().split("[project.scripts]")[0], re.M
    )
    assert len(declared) > 15
    assert [name for name in declared if f"`{name}`" not in text] == []


def test_the_code_keeps_one_style() -> None:
    for words in (["check"], ["format", "--check"]):
        done = subprocess.run(
            [sys.executable, "-m", "ruff", *words, "."], cwd=ROOT, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stdout


def test_the_lock_names_no_host() -> None:
    for lock in ROOT.glob("requirements*.lock"):
        assert "://" not in lock.read_text()
