"""Two editions compared; every expected difference was put there by hand."""

from curriculum.repertoire.comparing import compare_editions
from tests.curriculum.repertoire.cast import edition, exercise


def test_an_edition_is_the_same_as_itself():
    assert compare_editions(edition(exercise("a")), edition(exercise("a"))).same


def test_added_removed_and_moved_exercises_are_named():
    old = edition(*(exercise(id) for id in "abcd"))
    found = compare_editions(old, edition(*(exercise(id) for id in "cabe")))
    assert (found.added, found.removed, found.moved) == (("e",), ("d",), ("c",))


def test_a_changed_value_is_told_with_its_path():
    old = edition(exercise("a", set_up={"springs": 4}))
    (change,) = compare_editions(old, edition(exercise("a", set_up={"springs": 3}))).changed
    assert next((one.path, one.before, one.after) for one in change.differences) == ("set_up.springs.usual", "4", "3")


def test_elements_are_matched_by_their_id():
    fault = {"id": "slump", "sees": "s", "cause": "c", "correct": "k"}
    old = edition(exercise("a", faults=[fault]))
    new = edition(exercise("a", faults=[{**fault, "id": "shake"}, {**fault, "cause": "other"}]))
    (change,) = compare_editions(old, new).changed
    assert [one.path for one in change.differences] == ["faults[slump].cause", "faults[shake]"]
