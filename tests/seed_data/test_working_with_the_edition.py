"""What works on the edition works on chair, table and barrels too: plans, the exam bank, measured springs."""

import csv
import json
from collections import Counter
from io import StringIO
from pathlib import Path

import pytest

from app.cli import run

SEED = Path(__file__).parents[2] / "seed_data" / "repertoire"
EDITION, MACHINES = SEED / "classical-2026.1", SEED / "machines.yaml"
TOP_OF_STUDIO_HABIT = 40  # seconds; common practice: a box takes 25 to 40 s, a bar with its strap 15 to 20 s


@pytest.mark.parametrize("apparatus", ["trapeze-table", "chair", "ladder-barrel", "spine-corrector"])
def test_a_basic_plan_on_one_apparatus_keeps_its_order(apparatus: str, capsys: pytest.CaptureFixture[str]) -> None:
    wanted = ["--minutes", "50", "--level", "basic", "--apparatus", apparatus, "--factor", "2", "--json"]
    assert run(["plan", "build", "--repertoire", str(EDITION), *wanted]) == 0
    found = json.loads(capsys.readouterr().out)
    assert len(found["exercises"]) >= 6
    assert found["seconds"] <= 50 * 60
    assert (found["gap"], found["out_of_order"]) == (0, [])
    assert all(item["transition_seconds"] <= TOP_OF_STUDIO_HABIT for item in found["items"])


def test_the_exam_bank_holds_every_exercise_of_every_apparatus(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["repertoire", "bank", str(EDITION)]) == 0
    rows = list(csv.DictReader(StringIO(capsys.readouterr().out)))
    counted = Counter(row["apparatus"] for row in rows)
    assert (counted["chair"], counted["trapeze-table"], counted["mat"]) == (36, 32, 34)
    assert (counted["ladder-barrel"], counted["spine-corrector"]) == (22, 26)
    assert all(float(row["minutes"]) > 0 for row in rows)


def test_a_chair_s_spring_height_is_found_on_another_chair(capsys: pytest.CaptureFixture[str]) -> None:
    """By hand: two springs in the middle pull 115 N at 0.05 m and 247 N at 0.25 m; the stronger chair's low place
    pulls 137 - 2 x 0.04 x 360 = 108.2 N and 281 - 28.8 = 252.2 N, so 5.9 % at most."""
    asked = [
        "--from",
        "chair one",
        "--springs",
        "2",
        "--to",
        "chair two",
        "--travel",
        "0.05:0.25",
        "--on",
        "2026-11-25",
    ]
    assert run(["springs", "match", "--machines", str(MACHINES), *asked, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["gear"] == "low"
    assert found["worst_difference"] == pytest.approx(0.059, abs=0.0005)


@pytest.mark.parametrize(("bar", "springs"), [("roll-down bar", 2), ("push-through bar", 1), ("push-through bar", 2)])
def test_a_table_s_bars_are_measured_apart(bar: str, springs: int, capsys: pytest.CaptureFixture[str]) -> None:
    name = f"table one, {bar}"
    asked = ["--from", name, "--springs", str(springs), "--to", name, "--travel", "0.1:0.5", "--on", "2026-11-25"]
    assert run(["springs", "match", "--machines", str(MACHINES), *asked, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["worst_difference"] == pytest.approx(0)
