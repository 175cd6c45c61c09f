"""Practicals in files: the demo school's own hold, and faults name file and line."""

from pathlib import Path

import pytest

from app.files.practicals import practical_from_file, practical_from_text
from curriculum.faults import RefusedError

SEED = Path(__file__).parents[3] / "seed_data" / "practicals"


@pytest.mark.parametrize("name", ["basic", "final"])
def test_the_demo_practicals_hold_and_every_level_says_what_is_seen(name):
    made = practical_from_file(SEED / f"{name}.yaml")
    assert [one.id for one in made.criteria] == list("ABCDEFGHIJ")
    assert all(len(one.sentences) == 4 for one in made.criteria)
    assert (len(made.critical_faults), sum(cell.weight for cell in made.cells())) == (8, 100)


def test_the_demo_final_weighs_criteria_as_the_trade_notes_propose():
    # Merged trade set with proposed weights, A to J: 20 10 15 8 5 12 10 7 5 8.
    made = practical_from_file(SEED / "final.yaml")
    assert [int(one.weight) for one in made.criteria] == [20, 10, 15, 8, 5, 12, 10, 7, 5, 8]


def test_a_fault_names_file_and_line():
    text = (SEED / "basic.yaml").read_text().replace("left_out: 20", "left_out: a fifth")
    with pytest.raises(RefusedError) as refused:
        practical_from_text(text, "basic.yaml")
    assert str(refused.value) == "basic.yaml:7: left_out: “a fifth” is not a number from 0 to 100"
