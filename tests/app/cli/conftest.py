import json

import pytest

from app.cli import run


@pytest.fixture
def file(tmp_path):
    """Writes a file and gives its path."""

    def write(text, name="scores.csv"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


@pytest.fixture
def measured(capsys):
    """What `throughline measure` answers in JSON."""

    def measure(*words):
        status = run(["measure", *words, "--json"])
        out, err = capsys.readouterr()
        assert status == 0, err
        return json.loads(out)

    return measure
