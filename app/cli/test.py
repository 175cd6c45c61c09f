"""`throughline test`: every test, on SQLite always and on what else is found here, named when it is not."""

import argparse
import os
import shutil
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def add_to(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("pytest", nargs=argparse.REMAINDER, help="anything pytest takes")
    parser.set_defaults(act=run_tests)


def run_tests(options: argparse.Namespace) -> int:
    """Say what is missing, then run the suite on every core; the exit status is pytest's."""
    for sentence in missing():
        print(sentence, file=sys.stderr)
    chosen = [word for word in options.pytest if word != "--"]
    return int(pytest.main(["-n", "auto", "--rootdir", str(ROOT), *(chosen or [str(ROOT / "tests")])]))


def missing() -> list[str]:
    """What the suite would also use, and how to give it."""
    sentences = []
    if not os.environ.get("THROUGHLINE_TEST_POSTGRES"):
        sentences.append(
            "PostgreSQL: not tried. Give THROUGHLINE_TEST_POSTGRES=postgresql://… to run the same tests on it."
        )
    if not browser():
        sentences.append("Chromium: not found, so no page is opened in a browser. Install chromium to run those too.")
    return sentences


def browser() -> str | None:
    """The path of a Chromium on this machine, if there is one."""
    return next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
