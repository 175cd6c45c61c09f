"""`throughline test`: every test, on SQLite always and on what else is found here, named when it is not."""

import argparse
import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
KNOWN = {"chromium", "postgresql"}
OF_PLAYWRIGHT = ("chrome-linux*/chrome", "chrome-mac*/*.app/Contents/MacOS/*", "chrome-win*/chrome.exe")


def add_to(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("pytest", nargs=argparse.REMAINDER, help="anything pytest takes")
    parser.set_defaults(act=run_tests)


def run_tests(options: argparse.Namespace) -> int:
    """Say what is missing, then run the suite on every core; the exit status is pytest's.

    Where `THROUGHLINE_MUST_HAVE` names what is missing, nothing is run and the status is 2.
    """
    left_out = missing()
    for sentence in left_out.values():
        print(sentence, file=sys.stderr)
    needed = must_have()
    unmet = sorted(needed & left_out.keys() | needed - KNOWN)
    if unmet:
        print(f"THROUGHLINE_MUST_HAVE asks for what is not here: {', '.join(unmet)}. No test was run.", file=sys.stderr)
        return 2
    chosen = [word for word in options.pytest if word != "--"]
    return int(pytest.main(["-n", "auto", "--rootdir", str(ROOT), *(chosen or [str(ROOT / "tests")])]))


def missing() -> dict[str, str]:
    """What the suite would also use, by name, and how to give it."""
    sentences = {}
    if not os.environ.get("THROUGHLINE_TEST_POSTGRES"):
        sentences["postgresql"] = (
            "PostgreSQL: not tried. Give THROUGHLINE_TEST_POSTGRES=postgresql://… to run the same tests on it."
        )
    if not browser():
        sentences["chromium"] = (
            "Chromium: not found, browser tests left out. Install chromium, or run 'playwright install chromium'."
        )
    return sentences


def must_have() -> frozenset[str]:
    """What has to be there for this run, as `THROUGHLINE_MUST_HAVE=chromium,postgresql` says."""
    words = os.environ.get("THROUGHLINE_MUST_HAVE", "").split(",")
    return frozenset(word.strip() for word in words) - {""}


def browser() -> str | None:
    """The path of a Chromium on this machine, if there is one: an installed one first, then Playwright's own."""
    installed = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    return installed or next((str(path) for path in _of_playwright()), None)


def _of_playwright() -> Iterator[Path]:
    """Where `playwright install chromium` puts it, newest first."""
    home = Path.home()
    places = [home / ".cache", home / "Library" / "Caches", home / "AppData" / "Local"]
    named = os.environ.get("PLAYWRIGHT_BROWSERS_PATH", "")
    folders = [Path(named)] if named else [place / "ms-playwright" for place in places]
    for folder in folders:
        for release in sorted(folder.glob("chromium-*"), reverse=True):
            yield from (path for inner in OF_PLAYWRIGHT for path in release.glob(inner) if path.is_file())
