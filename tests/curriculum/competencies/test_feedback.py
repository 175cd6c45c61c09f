"""Feedback of a supervising teacher: what it must say, and what of an exercise it shows. The rule is our own, as stated."""

from dataclasses import replace
from datetime import date

from app.files.repertoire import edition_from_documents
from app.settings import ROOT
from curriculum.competencies.evidence import coverage_of
from curriculum.competencies.feedback import Said, evidence_of_feedback, feedback_faults

EDITION = edition_from_documents(
    {one.name: one.read_text() for one in sorted((ROOT / "seed_data/repertoire/classical-2026.1").glob("*.yaml"))}
)
SAID = Said("cue", "alone", "mat-hundred", "It breathed.", "Say less.", "One word a phase.")
DAY = date(2026, 11, 20)


def test_all_that_is_missing_is_said_at_once() -> None:
    assert feedback_faults(SAID, EDITION) == []
    empty = Said("taste", "", "no-such", "", "x" * 401, "")
    assert [(one.field, one.code) for one in feedback_faults(empty, EDITION)] == [
        ("strand", "no-strand"), ("level", "no-level"), ("exercise", "no-exercise"), ("worked", "no-words"),
        ("better", "too-long"), ("next_step", "no-words"),
    ]  # fmt: skip
    assert feedback_faults(replace(SAID, exercise=""), EDITION) == []


def test_it_grounds_its_strand_as_tried_under_supervision_and_covers_no_activity() -> None:
    shown = coverage_of("mat-hundred", evidence_of_feedback("mat-hundred", "cue", DAY, "Greta", ()))
    assert [(one.strand, one.ground, one.assessor) for one in shown.strands if one.ground != "none"] == [
        ("cue", "supervised", "Greta")
    ]
    assert shown.is_open


def test_on_the_whole_lesson_it_speaks_for_every_exercise_noted_as_taught_in_it_once() -> None:
    found = list(evidence_of_feedback("", "adapt", DAY, "Greta", ("mat-hundred", "mat-saw", "mat-hundred")))
    assert [one.exercise for one in found] == ["mat-hundred", "mat-saw"]
    assert list(evidence_of_feedback("", "adapt", DAY, "Greta", ())) == []
