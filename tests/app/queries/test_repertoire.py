"""The order, an exercise and a search, from the edition that the product brings along."""

from dataclasses import replace
from pathlib import Path

import pytest

from app.files.repertoire import edition_from_documents, edition_from_folder
from app.queries.exercise import exercise_overview
from app.queries.repertoire import apparatus_overview, found_in, order_overview
from app.wording.repertoire import SETTINGS, repetitions_text, seconds_text, springs_text
from curriculum.faults import NotFoundError, RefusedError
from curriculum.repertoire import set_up
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Lineage
from curriculum.repertoire.set_up import Springs
from curriculum.repertoire.tempo import repetitions_from

FOLDER = Path(__file__).resolve().parents[3] / "seed_data" / "repertoire" / "classical-2026.1"


@pytest.fixture(scope="module")
def edition() -> Edition:
    return edition_from_folder(FOLDER)


def test_texts_of_an_edition_are_read_as_its_folder_is_and_only_once(edition: Edition) -> None:
    texts = {path.name: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.yaml")}
    assert edition_from_documents(texts) == edition
    assert edition_from_documents(dict(texts)) is edition_from_documents(texts)


def test_texts_without_the_edition_file_are_refused() -> None:
    with pytest.raises(RefusedError):
        edition_from_documents({"mat.yaml": "apparatus: mat"})


def test_the_mat_has_its_34_exercises_in_the_published_order(edition: Edition) -> None:
    """Pilates and Miller, Return to Life Through Contrology, 1945: 34 exercises, the Hundred first, the push up last."""
    mat = next(one for one in order_overview(edition) if one.href == "/repertoire/mat")
    assert (mat.number, sum(part.number for part in mat.series)) == (34, 34)
    lines = [line for _, _, lines in apparatus_overview(edition, "mat").series for line in lines]
    assert [line.place for line in lines] == list(range(1, 35))
    assert "Hundred" in lines[0].name
    assert "Push" in lines[-1].name


def test_footwork_takes_the_seconds_its_counts_take(edition: Edition) -> None:
    """Common practice: 10 × (3 + 3) counts at one a second are 60 s a position, the tendon stretch another 48 s."""
    shown = exercise_overview(edition, "reformer-footwork")
    assert [one.seconds for one in shown.positions] == ["1 min", "1 min", "1 min", "48 s"]
    assert shown.seconds == "3 min 48 s"


def test_an_exercise_names_what_the_school_has_still_to_confirm(edition: Edition) -> None:
    shown = exercise_overview(edition, "reformer-footwork")
    assert shown.to_confirm == "School to confirm: Springs, Repetitions."
    assert dict(shown.set_up)["Springs"] == "1 to 4 springs, usually 4 (school to confirm)"


def test_a_transition_is_told_for_both_kinds_of_foot_bar(edition: Edition) -> None:
    ((name, href, variants),) = exercise_overview(edition, "reformer-footwork").transitions
    assert (name, href) == ("Hundred", "/repertoire/exercises/reformer-hundred")
    assert [one.seconds for one in variants] == ["15 s", "25 s"]
    assert "maker's manual" in variants[0].when
    assert "locks" in variants[1].when


def test_a_fault_has_its_drill_first_and_the_cues_that_answer_it(edition: Edition) -> None:
    faults = {one.fault.id: one for one in exercise_overview(edition, "reformer-footwork").faults}
    assert faults["heels-drift"].steps[0].startswith("Press one inch")
    assert [kind for kind, _ in faults["heels-drift"].cues] == ["Say", "Touch, with consent"]


def test_every_exercise_has_a_page_and_its_cautions_send_on(edition: Edition) -> None:
    for exercise in edition.exercises:
        shown = exercise_overview(edition, exercise.id)
        assert shown.frame, exercise.id
        assert shown.stop, exercise.id
        assert all(one.ask for one in shown.cautions), exercise.id


def test_a_withheld_exercise_says_so_whatever_else_is_written(edition: Edition) -> None:
    for exercise in edition.exercises:
        for caution, shown in zip(exercise.cautions, exercise_overview(edition, exercise.id).cautions, strict=True):
            assert shown.act.startswith("Leave it out" if caution.action == "withhold" else "Change it")


def test_before_and_after_stay_on_the_apparatus(edition: Edition) -> None:
    for apparatus in ("reformer", "mat"):
        first, *_, last = (one.id for one in edition.on(apparatus))
        assert exercise_overview(edition, first).before is None
        assert exercise_overview(edition, last).after is None


@pytest.mark.parametrize("ask", [exercise_overview, apparatus_overview])
def test_what_the_edition_does_not_have_is_not_found(edition: Edition, ask) -> None:  # noqa: ANN001
    with pytest.raises(NotFoundError):
        ask(edition, "no-such-thing")


def test_a_search_finds_names_first_then_words_of_faults_and_cues(edition: Edition) -> None:
    assert [one.line.name for one in found_in(edition, "FOOTWÓRK")][:1] == ["Footwork"]
    syrup = found_in(edition, "thick syrup")[0]
    assert (syrup.line.name, syrup.text) == ("Footwork", "You drag the carriage home through thick syrup.")
    assert found_in(edition, "quasar") == ()
    assert found_in(edition, "  ") == ()


def test_a_search_knows_the_names_of_other_lineages(edition: Edition) -> None:
    """An invented other name, as the edition brought along has none."""
    footwork = replace(edition.exercise("reformer-footwork"), lineages=(Lineage("invented", "Foot presses"),))
    others = tuple(footwork if one.id == footwork.id else one for one in edition.exercises)
    found = found_in(replace(edition, exercises=others), "foot presses")[0]
    assert (found.line.name, found.text) == ("Footwork", "Foot presses")


def test_every_setting_that_a_set_up_may_have_has_a_word() -> None:
    lists = (set_up.FOOT_BARS, set_up.HEADRESTS, set_up.STRAPS, set_up.BOXES, set_up.ATTACHMENTS, set_up.HANGS)
    assert {one for every in (*lists, set_up.SAFETY_STRAPS, set_up.POSTURES) for one in every} <= set(SETTINGS)


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("10", "10 times"),
        ("1", "once"),
        ("3-5", "3 to 5 times"),
        ("5 each way each leg", "5 times, each way, each leg"),
        ("3 sets of 5", "3 sets of 5"),
        ("10 breaths", "10 breaths"),
    ],
)
def test_repetitions_are_said_in_words(written: str, said: str) -> None:
    assert repetitions_text(repetitions_from(written)) == said


def test_springs_and_seconds_are_said_in_words() -> None:
    four = Springs(4, 4, 4)
    assert [springs_text(one) for one in (None, four, replace(four, every=True), Springs(1, 1, 1))] == [
        "",
        "4 springs",
        "all springs, so that nothing moves",
        "1 spring",
    ]
    assert [seconds_text(one) for one in (59, 60, 61)] == ["59 s", "1 min", "1 min 1 s"]


def test_a_line_of_the_order_says_where_springs_are_hooked_in_and_that_the_strap_is_on(edition: Edition) -> None:
    """Common practice: a bar sprung from below goes with its safety strap."""
    lines = {
        line.name: line.springs for _, _, part in apparatus_overview(edition, "trapeze-table").series for line in part
    }
    assert lines["Footwork on the bar"] == "2 springs · hooked in: bottom · push-through bar · safety strap on"
    assert lines["Half hang"] == "loops"
    chair = {line.name: line.springs for _, _, part in apparatus_overview(edition, "chair").series for line in part}
    assert chair["Seated double-leg pump, toes"] == "2 springs · hooked in: usually middle, or top"


def test_a_caution_that_changes_an_exercise_names_another_only_where_one_is_written(edition: Edition) -> None:
    cautions = {one.name: one for one in exercise_overview(edition, "barrel-swan").cautions}
    assert cautions["Shoulder trouble"].instead == ""
    assert cautions["Hernia"].instead == "Swan on the mat with a towel under the hip bones."
    assert cautions["Spinal stenosis"].instead == edition.caution_kind("spinal-stenosis").instead
