"""What is asked now: what is due first, then new ones, mixed the same way for the same day."""

from datetime import date, timedelta

import pytest

from curriculum.repertoire.reading import read_edition
from curriculum.study.choosing import chosen_questions, due_questions, new_questions, next_few
from curriculum.study.making import questions_of
from curriculum.study.spacing import after
from tests.curriculum.repertoire.cast import edition, exercise, node_of, series, shared

DAY = date(2026, 3, 2)
SMALL = edition(
    *(exercise(f"basic-{number}", spot="yes", spotting="There.") for number in range(4)),
    *(exercise(f"later-{number}", level="advanced", spot="yes") for number in range(4)),
)
QUESTIONS = questions_of(SMALL)


def test_what_is_longest_due_comes_first_and_what_is_not_due_not_at_all() -> None:
    memories = {
        "spot:basic-0": after(None, "blank", DAY - timedelta(days=1)),
        "spot:basic-1": after(None, "blank", DAY - timedelta(days=9)),
        "spot:basic-2": after(None, "teach", DAY - timedelta(days=1)),
        "gone:basic-2": after(None, "blank", DAY - timedelta(days=9)),
    }
    assert [one.id for one in due_questions(QUESTIONS, memories, DAY)] == ["spot:basic-1", "spot:basic-0"]
    fresh = new_questions(SMALL, QUESTIONS, memories, "x")
    assert len(fresh) == len(QUESTIONS) - 3
    few = next_few(due_questions(QUESTIONS, memories, DAY), fresh)
    assert [one.id for one in few[:2]] == ["spot:basic-1", "spot:basic-0"]


def test_new_ones_are_mixed_the_same_way_for_the_same_chance_and_easier_levels_first() -> None:
    once, twice, other = (new_questions(SMALL, QUESTIONS, {}, chance) for chance in ("a", "a", "b"))
    assert once == twice != other
    levels = [SMALL.exercise(one.exercise).level for one in once]
    assert levels == sorted(levels, key=("basic", "advanced").index)


@pytest.mark.parametrize("chance", ["a", "b", "c", "d"])
def test_a_few_new_ones_are_of_different_exercises_and_kinds(chance: str) -> None:
    few = next_few((), new_questions(SMALL, QUESTIONS, {}, chance), 4)
    assert len({one.exercise for one in few}) == len({one.kind for one in few}) == 4


def test_there_are_five_as_long_as_there_are_five_questions() -> None:
    alone = edition(exercise("a", spot="yes", faults=[
        {"id": f"f{number}", "sees": "See.", "cause": "Cause.", "correct": "Correct."} for number in range(3)
    ]))  # fmt: skip
    assert len(next_few((), questions_of(alone))) == 5
    assert next_few((), ()) == ()


def test_apparatus_and_level_are_chosen() -> None:
    mat = series(exercise("rolling"), apparatus="mat", series="mat", name="Mat")
    documents = {"all.yaml": node_of(series(exercise("footwork"), exercise("frog", level="advanced")))}
    whole = read_edition(node_of(shared(series=["all.yaml", "mat.yaml"])), documents | {"mat.yaml": node_of(mat)})
    questions = questions_of(whole)

    def exercises(apparatus: tuple[str, ...], level: str) -> set[str]:
        return {one.exercise for one in chosen_questions(whole, questions, apparatus, level)}

    assert exercises((), "") == {"footwork", "frog", "rolling"}
    assert exercises(("reformer",), "") == {"footwork", "frog"}
    assert exercises((), "basic") == {"footwork", "rolling"}
    assert exercises(("mat",), "basic") == {"rolling"}
