"""Springs on the command line; the readings are invented, the sums are Hooke's law."""

import json

import pytest

from app.cli import run

TEXT = """
machines:
  - name: old
    calibrated: 2026-10-01
    springs:
      - {label: a, readings: [{travel: 0, newtons: 20}, {travel: 0.5, newtons: 120}]}
      - {label: b, readings: [{travel: 0, newtons: 20}, {travel: 0.5, newtons: 120}]}
  - name: new
    calibrated: 2026-10-01
    springs:
      - {label: heavy, readings: [{travel: 0, newtons: 40}, {travel: 0.5, newtons: 250}]}
      - {label: light, readings: [{travel: 0, newtons: 10}, {travel: 0.5, newtons: 50}]}
"""


@pytest.fixture
def machines(tmp_path):
    path = tmp_path / "machines.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return str(path)


def words(machines: str, springs: str, travel: str = "0:0.5", on: str = "2026-11-25", to: str = "new") -> list[str]:
    return ["springs", "match", "--machines", machines, "--from", "old", "--springs", springs, "--to", to,
            "--travel", travel, "--on", on, "--json"]  # fmt: skip


def test_match_finds_the_closest_set(machines, capsys):
    assert run(words(machines, "2")) == 0
    found = json.loads(capsys.readouterr().out)
    assert (found["match"], found["worst_difference"]) == (["heavy"], pytest.approx(10 / 240))


def test_nothing_within_15_per_cent_is_told(machines, capsys):
    assert run(words(machines, "1")) == 0
    found = json.loads(capsys.readouterr().out)
    assert (found["match"], found["closest"], found["within_15_percent"]) == (None, ["light"], False)
    assert "nothing within 15 %" in found["sentence"]


def test_a_stale_calibration_fails_with_2(machines, capsys):
    assert run(words(machines, "2", on="2028-01-01")) == 2
    assert f"{machines}:3: old: spring a was measured on 2026-10-01, more than 365 days ago" in capsys.readouterr().err


def test_an_unknown_machine_fails_with_2(machines, capsys):
    assert run(words(machines, "2", to="other")) == 2
    assert "to: there is no machine “other”; there are: old, new" in capsys.readouterr().err


@pytest.mark.parametrize("travel", ["0.6:0.1", "x", "0.1", "-1:0.5", "nan:1"])
def test_a_travel_that_does_not_rise_fails_with_2(machines, travel):
    with pytest.raises(SystemExit) as stop:
        run(words(machines, "2", travel))
    assert stop.value.code == 2
