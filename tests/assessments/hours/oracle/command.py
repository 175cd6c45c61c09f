"""Runs `hours assess` in this process and reads its JSON."""

import contextlib
import io
import json
from dataclasses import dataclass
from pathlib import Path

from app.cli import run
from tests.assessments.hours.oracle.strategies import Files


@dataclass(frozen=True)
class Outcome:
    status: int
    answers: list[dict]
    faults: str


def assess(files: Files, folder: Path) -> Outcome:
    written = {"set.yaml": files.set_text, "log.csv": files.log_text, "facts.yaml": files.facts_text}
    for name, text in written.items():
        if text is not None:
            (folder / name).write_text(text, encoding="utf-8")
    words = ["hours", "assess", "--requirements", str(folder / "set.yaml"), "--log", str(folder / "log.csv")]
    words += ["--as-of", files.as_of.isoformat(), "--json"]
    words += ["--enrolled", files.enrolled.isoformat()] if files.enrolled else []
    words += ["--facts", str(folder / "facts.yaml")] if files.facts_text else []
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        status = run(words)
    return Outcome(status, [json.loads(line) for line in out.getvalue().splitlines()], err.getvalue())
