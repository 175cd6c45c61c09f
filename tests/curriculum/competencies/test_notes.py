"""Notes of a session against the edition they were ticked in, and carried into another."""

from dataclasses import replace

from curriculum.competencies.notes import NotedExercise, NotedFault, carried, mends_of, note_faults
from tests.curriculum.repertoire.cast import edition, exercise

FAULTS = [{"id": "slump", "sees": "s", "cause": "c", "correct": "sit up", "drill": "easy"}]
CUES = [{"say": "Long neck."}, {"say": "Sit tall.", "answers": "slump"}]
EASIER = [{"id": "easy", "changes": "range", "does": "Half the way."}]
SMALL = edition(exercise("a", faults=FAULTS, cues=CUES, regressions=EASIER), exercise("b"))


def codes(*noted: NotedExercise, activities: tuple = ("observation",)) -> list[str]:
    return [fault.code for fault in note_faults(noted, SMALL, activities)]


def noted(**ticks: object) -> NotedExercise:
    return NotedExercise("observation", "a", **ticks)


def test_a_fault_is_mended_by_its_correction_its_drill_and_the_cues_that_answer_it():
    exercise_a = SMALL.exercise("a")
    assert mends_of(exercise_a, exercise_a.faults[0]) == (
        ("correction", "sit up"),
        ("step-easy", "Half the way."),
        ("cue-2", "Sit tall."),
    )


def test_what_the_edition_has_can_be_noted():
    assert codes(noted(cues=(1, 2), faults=(NotedFault("slump", ("correction", "cue-2")),), words="x")) == []


def test_everything_wrong_is_said_at_once():
    wrong = NotedExercise("sailing", "z", (), (), "x" * 241)
    assert codes(wrong, wrong) == ["twice", "no-activity", "not-of-edition", "too-long", "too-long"]


def test_cues_faults_and_mends_that_the_exercise_does_not_have_are_refused():
    for ticks in (
        {"cues": (3,)},
        {"cues": (0,)},
        {"faults": (NotedFault("x"),)},
        {"faults": (NotedFault("slump", ("cue-1",)),)},
    ):
        assert codes(noted(**ticks)) == ["not-of-edition"]


def test_more_than_sixty_exercises_are_refused():
    many = [NotedExercise(f"a{place}", "a") for place in range(61)]
    assert codes(*many, activities=tuple(one.activity for one in many)) == ["too-many"]


def test_notes_are_carried_into_another_edition_by_the_text_of_the_cue():
    """The second edition has a cue more in front, and the first cue no longer."""
    later = edition(
        exercise("a", faults=FAULTS, cues=[{"say": "Breathe."}, CUES[1]], regressions=EASIER),
        exercise("b"),
    )
    later = replace(later, id="small.2")
    before = noted(cues=(1, 2), faults=(NotedFault("slump", ("correction", "cue-2")), NotedFault("gone")), words="x")
    assert carried(before, SMALL, later) == noted(
        cues=(2,), faults=(NotedFault("slump", ("correction", "cue-2")),), words="x"
    )
