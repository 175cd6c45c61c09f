"""Readiness criteria in files."""

from pathlib import Path

import pytest

from app.files.readiness import readiness_from_file, readiness_from_text
from curriculum.faults import RefusedError

SEED = Path(__file__).parents[3] / "seed_data" / "readiness" / "comprehensive.yaml"


def test_the_demo_criteria_ask_for_hours_practicals_documents_and_modules():
    made = readiness_from_file(SEED)
    assert {one.kind for one in made.criteria} == {"hours", "practical", "document", "module"}


def test_a_fault_names_file_and_line():
    text = SEED.read_text().replace("minutes_a_week: 420 ", "minutes_a_week: none ")
    with pytest.raises(RefusedError) as refused:
        readiness_from_text(text, "ready.yaml")
    assert str(refused.value) == "ready.yaml:5: minutes_a_week: “none” is not a number from 1 to 10080"
