"""The edition that comes with the product, against the published mat order and common practice."""

import re
from pathlib import Path

import yaml

from app.cli import run

EDITION = Path(__file__).parents[2] / "seed_data" / "repertoire" / "classical-2026.1"
PUBLISHED_MAT_EXERCISES = 34  # Return to Life Through Contrology, 1945: thirty-four exercises


def _series() -> list[dict]:
    names = yaml.safe_load((EDITION / "edition.yaml").read_text(encoding="utf-8"))["series"]
    return [yaml.safe_load((EDITION / name).read_text(encoding="utf-8")) for name in names]


def test_the_edition_is_taken_in_without_a_fault():
    assert run(["repertoire", "check", str(EDITION)]) == 0


def test_the_mat_holds_as_many_exercises_as_the_published_order():
    mat = [exercise for series in _series() if series["apparatus"] == "mat" for exercise in series["exercises"]]
    assert len(mat) == PUBLISHED_MAT_EXERCISES


def test_every_reformer_exercise_says_which_springs():
    reformer = [series for series in _series() if series["apparatus"] == "reformer"]
    bare = [
        exercise["id"]
        for series in reformer
        for exercise in series["exercises"]
        if "springs" not in {**series.get("set_up", {}), **exercise.get("set_up", {})}
    ]
    assert bare == []


def test_every_reason_check_and_step_is_a_whole_sentence():
    """A comma in an unquoted list would cut a sentence in two."""
    cut = [text for series in _series() for text in _listed(series) if not re.fullmatch(r"[^a-z].*[.!?]", text)]
    assert cut == []


def _listed(found: object, key: str = "") -> list[str]:
    if isinstance(found, dict):
        return [text for inner, value in found.items() for text in _listed(value, inner)]
    if isinstance(found, list):
        texts = [one for one in found if isinstance(one, str) and key in ("lighter", "heavier", "checks", "steps")]
        return texts + [text for one in found if not isinstance(one, str) for text in _listed(one)]
    return []
