"""Five statements for every exercise."""

from curriculum.competencies.statements import STRANDS, competency_statements
from tests.curriculum.repertoire.cast import edition, exercise

READ = edition(
    exercise(
        "a",
        set_up={"springs": "3-4"},
        cautions=["knee"],
        faults=[{"id": "slump", "sees": "s", "cause": "c", "correct": "k"}],
    ),
    exercise("b", set_up={"springs": "all"}),
)


def test_every_exercise_has_one_statement_for_each_strand():
    found = competency_statements(READ)
    assert [one.id for one in found] == [f"{id}.{strand}" for id in "ab" for strand in STRANDS]


def test_statements_hold_what_the_edition_says():
    set_up, _, see, adapt, transition = [one.text() for one in competency_statements(READ)[:5]]
    assert ("3-4 spring(s)" in set_up, "slump" in see, "Knee" in adapt, "into B" in transition) == (True,) * 4


def test_the_last_exercise_ends_safely():
    assert competency_statements(READ)[-1].text() == "Ends B and brings the client off safely"
