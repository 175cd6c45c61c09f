"""Plans on the command line."""

import json

import pytest

from app.cli import run

FOLDER = "seed_data/repertoire/classical-2026.1"
KEYS = [
    "seconds",
    "moving_seconds",
    "transition_seconds",
    "items",
    "order_kept",
    "out_of_order",
    "families",
    "warnings",
]


@pytest.fixture
def plan(tmp_path):
    def write(text: str) -> str:
        path = tmp_path / "plan.yaml"
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


def test_check_answers_with_its_keys(plan, capsys):
    path = plan("exercises: [reformer-footwork, reformer-hundred]")
    assert run(["plan", "check", path, "--repertoire", FOLDER, "--factor", "2", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert list(found) == KEYS
    assert found["moving_seconds"] == 228 + 100  # common practice
    assert found["seconds"] == 2 * (found["moving_seconds"] + found["transition_seconds"])


def test_check_names_file_line_and_field_of_a_fault(plan, capsys):
    path = plan("exercises:\n  - reformer-footwork\n  - somersault\n")
    assert run(["plan", "check", path, "--repertoire", FOLDER]) == 2
    assert capsys.readouterr().err.startswith(f"{path}:3: exercises[1]: there is no exercise “somersault”")


def test_build_keeps_the_minutes(capsys):
    words = [
        "plan",
        "build",
        "--repertoire",
        FOLDER,
        "--minutes",
        "50",
        "--level",
        "basic",
        "--factor",
        "2.25",
        "--json",
    ]
    assert run(words) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["seconds"] <= 3000
    assert found["gap"] == 0


def test_build_withholds_what_a_caution_withholds(capsys):
    words = [
        "plan",
        "build",
        "--repertoire",
        FOLDER,
        "--minutes",
        "50",
        "--level",
        "basic",
        "--client",
        "pregnancy",
        "--json",
    ]
    assert run(words) == 0
    assert "mat-rolling-back" not in json.loads(capsys.readouterr().out)["exercises"]


def test_build_for_an_unknown_level_or_caution_fails_with_2(capsys):
    assert run(["plan", "build", "--repertoire", FOLDER, "--minutes", "50", "--level", "expert"]) == 2
    assert (
        run(["plan", "build", "--repertoire", FOLDER, "--minutes", "50", "--level", "basic", "--client", "moon"]) == 2
    )
    assert "level: “expert” is not one of: basic, intermediate, advanced" in capsys.readouterr().err


@pytest.mark.parametrize("words", [["--factor", "0"], ["--factor", "x"], ["--minutes", "0"], ["--minutes", "5.5"]])
def test_numbers_out_of_bounds_fail_with_2(plan, words):
    with pytest.raises(SystemExit) as stop:
        run(["plan", "check", plan("exercises: [reformer-footwork]"), "--repertoire", FOLDER, *words])
    assert stop.value.code == 2


def test_text_for_people_has_no_json(plan, capsys):
    assert run(["plan", "check", plan("exercises: [reformer-footwork]"), "--repertoire", FOLDER]) == 0
    assert "3:48  Footwork" in capsys.readouterr().out
