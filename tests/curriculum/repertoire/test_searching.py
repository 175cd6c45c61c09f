"""Search. BM25 is checked by hand against its formula; what should be found for what one sees is common practice."""

from math import log
from pathlib import Path

import pytest

from app.files.repertoire import edition_from_folder
from curriculum.repertoire.searching import K1, WEIGHTS, B, search, stems
from tests.curriculum.repertoire.cast import edition, exercise

WHOLE = edition_from_folder(Path(__file__).parents[3] / "seed_data" / "repertoire" / "classical-2026.1")


def names(asked: str, first: int = 5) -> list[str]:
    return [hit.exercise.id for hit in search(WHOLE, asked)[:first]]


def test_one_word_scores_as_bm25_says():
    """Two exercises, so two passages: "A Reformer" and "B Reformer"; idf = ln(1 + (2 − 1 + ½) / (1 + ½))."""
    (hit,) = search(edition(exercise("a", name="Zebra"), exercise("b", name="Bear")), "zebra")
    length = K1 * (1 - B + B * 2 / 2)
    assert hit.score == pytest.approx(WEIGHTS["name"] * log(2) * (K1 + 1) / (1 + length))
    assert hit.exercise.id == "a"


@pytest.mark.parametrize(
    ("asked", "id"),
    [
        ("heels drop on the way out", "reformer-footwork"),
        ("Heels dropping", "reformer-footwork"),
        ("footwork", "reformer-footwork"),
        ("footw", "reformer-footwork"),
        ("HUNDRED mat", "mat-hundred"),
        ("knees snap straight", "reformer-footwork"),
        ("shoulders creep up to the ears", "reformer-knee-stretch-arched"),
    ],
)
def test_what_one_sees_is_found_as_well_as_a_name(asked: str, id: str):
    assert id in names(asked, 8)


def test_a_name_comes_before_what_speaks_of_it():
    assert [hit.text for hit in search(WHOLE, "footwork")][0] == ""


@pytest.mark.parametrize("asked", ["", "   ", "the of", "zzzz", "'; drop table", "\u0000", "🦶"])
def test_what_says_nothing_finds_nothing_or_at_least_does_no_harm(asked: str):
    assert len(search(WHOLE, asked)) <= 60


def test_accents_capitals_and_forms_do_not_matter():
    assert stems("Pliés, ROLLING") == stems("plies rolled")
