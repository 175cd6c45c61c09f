"""The edition that comes with the program: read, written, and held against what was published or is common practice."""

from pathlib import Path

import pytest

from app.files.repertoire import edition_from_folder, edition_to_folder
from curriculum.faults import RefusedError

FOLDER = Path(__file__).parents[3] / "seed_data" / "repertoire" / "classical-2026.1"
# Order of the 34 in Pilates and Miller, Return to Life Through Contrology, 1945 (from memory of the book, order checked
# against a studio's published list).
PUBLISHED = [
    "Hundred",
    "Roll up",
    "Roll over with legs spread",
    "One leg circle",
    "Rolling back",
    "One leg stretch",
    "Double leg stretch",
    "Spine stretch",
    "Rocker with open legs",
    "Corkscrew",
    "Saw",
    "Swan dive",
    "One leg kick",
    "Double kick",
    "Neck pull",
    "Scissors",
    "Bicycle",
    "Shoulder bridge",
    "Spine twist",
    "Jack knife",
    "Side kick",
    "Teaser",
    "Hip twist with stretched arms",
    "Swimming",
    "Leg pull – front",
    "Leg pull",
    "Side kick kneeling",
    "Side bend",
    "Boomerang",
    "Seal",
    "Crab",
    "Rocking",
    "Control balance",
    "Push up",
]


@pytest.fixture(scope="module")
def edition():
    return edition_from_folder(FOLDER)


def test_the_mat_follows_the_published_order(edition):
    names = [one.name.removesuffix(", both ways") for one in edition.on("mat")]
    assert names == PUBLISHED


def test_the_mat_list_moves_for_1243_seconds(edition):
    # common practice: the sum of repetitions times estimated seconds of one, set down before this edition was written
    assert sum(one.seconds for one in edition.on("mat")) == 1243


def test_footwork_moves_for_228_seconds(edition):
    footwork = edition.exercise("reformer-footwork")
    assert [one.seconds for one in footwork.positions] == [60, 60, 60, 48]  # common practice: 180 s and 48 s


def test_footwork_leads_into_the_hundred_for_both_kinds_of_foot_bar(edition):
    ways = edition.exercise("reformer-footwork").transitions
    assert {(way.to, way.foot_bar) for way in ways} == {
        ("reformer-hundred", "foot-lowered"),
        ("reformer-hundred", "locks"),
    }


def test_fourteen_exercises_at_least_are_written_in_full(edition):
    assert sum(one.in_detail for one in edition.exercises) >= 14


def test_no_text_calls_an_exercise_suitable_or_counts_weeks(edition):
    written = "\n".join(path.read_text(encoding="utf-8").lower() for path in FOLDER.glob("*.yaml"))
    assert not [
        word for word in ("suitable", " weeks", "safe for") if word in written.replace("places are safe for you", "")
    ]


def test_every_exercise_has_something_the_school_must_confirm(edition):
    assert all(one.confirm for one in edition.exercises)


def test_writing_and_reading_again_loses_nothing(edition, tmp_path):
    edition_to_folder(edition, tmp_path)
    assert edition_from_folder(tmp_path) == edition


def test_faults_name_file_and_line(edition, tmp_path):
    edition_to_folder(edition, tmp_path)
    file = tmp_path / "reformer-legs.yaml"
    text = file.read_text(encoding="utf-8").splitlines()
    line = next(number for number, one in enumerate(text, 1) if "level: basic" in one)
    file.write_text("\n".join(text).replace("level: basic", "level: easy", 1), encoding="utf-8")
    with pytest.raises(RefusedError) as refusal:
        edition_from_folder(tmp_path)
    assert str(refusal.value).startswith(f"{file}:{line}: exercises[0].level: “easy” is not one of: basic")


def test_a_file_that_cant_be_read_is_the_only_fault(edition, tmp_path):
    edition_to_folder(edition, tmp_path)
    (tmp_path / "mat-opening.yaml").write_text("a: [", encoding="utf-8")
    with pytest.raises(RefusedError) as refusal:
        edition_from_folder(tmp_path)
    assert [fault.code for fault in refusal.value.faults] == ["unreadable"]


def test_a_folder_without_an_edition_is_refused(tmp_path):
    with pytest.raises(RefusedError):
        edition_from_folder(tmp_path)
