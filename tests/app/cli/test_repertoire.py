"""Editions on the command line."""

import csv
import io
import json

from app.cli import run

FOLDER = "seed_data/repertoire/classical-2026.1"


def test_check_tells_what_an_edition_holds(capsys):
    assert run(["repertoire", "check", FOLDER, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["apparatus"]["mat"] == 34  # Pilates and Miller 1945


def test_check_of_a_folder_that_is_not_there_fails_with_2(capsys):
    assert run(["repertoire", "check", "/nowhere"]) == 2
    assert capsys.readouterr().err.startswith("/nowhere/edition.yaml: can't be read")


def test_compare_of_an_edition_with_itself_finds_nothing(capsys):
    assert run(["repertoire", "compare", FOLDER, FOLDER]) == 0
    assert capsys.readouterr().out == "Both editions teach the same.\n"


def test_bank_lists_every_exercise_as_a_task(capsys):
    assert run(["repertoire", "bank", FOLDER]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    footwork = next(row for row in rows if row["exercise"] == "reformer-footwork")
    assert (footwork["minutes"], footwork["difficulty"]) == ("3.8", "-1")  # 228 s, common practice
