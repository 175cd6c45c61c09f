"""An edition taken from documents: every fault at once, and nothing of a faulty one."""

import pytest

from curriculum.document import node_of
from curriculum.faults import RefusedError
from curriculum.repertoire.reading import read_edition
from tests.curriculum.repertoire.cast import edition, exercise, series, shared


def faults(*exercises: dict, edition: dict | None = None, **more: object) -> set[tuple[str, str, str]]:
    with pytest.raises(RefusedError) as refusal:
        read_edition(node_of(edition or shared()), {"all.yaml": node_of(series(*exercises, **more))})
    return {(fault.source, fault.field, fault.code) for fault in refusal.value.faults}


def test_exercises_stand_in_order_and_know_their_place():
    read = edition(exercise("a"), exercise("b"))
    assert [(one.id, one.place) for one in read.on("reformer")] == [("a", 1), ("b", 2)]


def test_springs_are_a_count_a_range_or_all():
    read = edition(*(exercise(id, set_up={"springs": count}) for id, count in (("a", 4), ("b", "3-4"), ("c", "all"))))
    assert [one.set_up.springs.count for one in read.exercises] == ["4", "3-4", "all"]


def test_what_a_series_sets_holds_unless_an_exercise_says_otherwise():
    read = edition(exercise("a"), exercise("b", set_up={"springs": 2}), set_up={"springs": 4, "foot_bar": "up"})
    assert [(one.set_up.springs.usual, one.set_up.foot_bar) for one in read.exercises] == [(4, "up"), (2, "up")]


def test_every_fault_of_every_document_is_told_at_once():
    bad = exercise("a", level="expert", families=["wobble"], repetitions="many")
    found = faults(bad, edition=shared(owner="", levels=[{"id": "basic"}]))
    assert {field for _, field, _ in found} == {
        "owner", "levels[0].name", "exercises[0].level", "exercises[0].families[0]", "exercises[0].repetitions",
    }  # fmt: skip


def test_a_rhythm_that_does_not_add_up_is_a_fault():
    assert ("all.yaml", "exercises[0].tempo", "rhythm-differs") in faults(exercise("a", tempo="4 × (3 down, 3 up)"))


def test_a_cue_must_answer_a_fault_of_its_exercise():
    found = faults(exercise("a", cues=[{"say": "Up", "answers": "slouch"}]))
    assert found == {("all.yaml", "exercises[0].cues[0].answers", "names-nothing")}


def test_a_cue_is_of_one_kind():
    found = faults(exercise("a", cues=[{"say": "Up", "touch": "hand"}]))
    assert found == {("all.yaml", "exercises[0].cues[0]", "one-cue")}


def test_a_transition_must_lead_into_an_exercise_of_the_edition():
    found = faults(exercise("a", transitions=[{"to": "z", "seconds": 4}]))
    assert found == {("all.yaml", "exercises[0].transitions[0].to", "no-such-exercise")}


def test_a_caution_must_stand_in_the_list_of_the_edition():
    assert faults(exercise("a", cautions=["moon"])) == {("all.yaml", "exercises[0].cautions[0]", "no-such-caution")}


def test_an_id_stands_once_in_an_edition():
    assert faults(exercise("a"), exercise("a")) == {("all.yaml", "exercises[1].id", "twice")}


def test_an_unknown_field_is_a_fault_that_names_the_known_ones():
    assert faults(exercise("a", spring=4)) == {("all.yaml", "exercises[0].spring", "unknown")}


def test_files_that_are_missing_or_not_listed_are_faults():
    found = faults(exercise("a"), edition=shared(series=["other.yaml"]))
    assert {code for _, _, code in found} == {"no-such-file", "not-listed"}


def test_the_same_fault_of_a_shared_set_up_is_told_once():
    with pytest.raises(RefusedError) as refusal:
        edition(exercise("a"), exercise("b"), set_up={"foot_bar": "sideways"})
    assert len(refusal.value.faults) == 1


@pytest.mark.parametrize("broken", [None, [], "x", {}, {"exercises": "x"}, {"exercises": [None, "x", [], {"id": []}]}])
def test_a_document_of_any_shape_is_refused_not_broken(broken):
    with pytest.raises(RefusedError):
        read_edition(node_of(shared()), {"all.yaml": node_of(broken)})
    with pytest.raises(RefusedError):
        read_edition(node_of(broken), {"all.yaml": node_of(series(exercise("a")))})
    with pytest.raises(RefusedError):
        fields = ("cues", "faults", "set_up", "positions", "cautions", "transitions", "tempo", "families", "confirm")
        edition(exercise("a", **{name: [broken, {"to": {}, "code": []}] for name in fields}))


def test_springs_may_be_hooked_in_at_more_than_one_place():
    heights = {"attachment": "middle", "other_attachments": ["top"]}
    read = edition(exercise("a"), exercise("b", set_up={"other_attachments": []}), set_up=heights)
    assert [one.set_up.attachment for one in read.exercises] == ["middle", "middle"]
    assert [one.set_up.other_attachments for one in read.exercises] == [("top",), ()]


def test_a_place_to_hook_in_must_be_a_known_one():
    found = faults(exercise("a", set_up={"other_attachments": ["attic"]}))
    assert found == {("all.yaml", "exercises[0].set_up.other_attachments[0]", "not-a-choice")}


def test_the_place_in_the_order_may_be_the_school_s_to_confirm():
    read = edition(exercise("a", confirm=["place", "repetitions"]))
    assert read.exercises[0].confirm == ("place", "repetitions")
    assert faults(exercise("a", confirm=["order"])) != []
