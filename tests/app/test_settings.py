"""Settings from the environment: what they are by default, and how a bad one is refused."""

import pytest

from app.cli import run
from app.settings import settings_from
from curriculum.faults import RefusedError


def test_a_port_is_taken_from_the_environment() -> None:
    assert (settings_from({}).port, settings_from({"THROUGHLINE_PORT": "9001"}).port) == (8000, 9001)


@pytest.mark.parametrize("text", ["", "eighty", "80.5", "-1", "0", "65536", "٨٠٠٠", "9" * 5000])
def test_what_is_no_port_is_refused_by_name(text: str) -> None:
    with pytest.raises(
        RefusedError, match="^THROUGHLINE_PORT: '.*' is not a port; give a whole number from 1 to 65535$"
    ):
        settings_from({"THROUGHLINE_PORT": text})


def test_the_command_says_it_in_a_sentence(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture) -> None:
    monkeypatch.setenv("THROUGHLINE_PORT", "eighty")
    assert run(["serve"]) == 2
    assert capsys.readouterr().err.startswith("THROUGHLINE_PORT: 'eighty' is not a port")
