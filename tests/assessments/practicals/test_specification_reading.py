"""What a practical's document must hold; every fault at once."""

import pytest

from assessments.practicals.reading import read_practical
from curriculum.document import node_of
from curriculum.faults import RefusedError
from tests.assessments.practicals.cast import document, practical


def codes(parts, criteria, **more):
    with pytest.raises(RefusedError) as refused:
        read_practical(node_of(document(parts, criteria, **more)))
    return {fault.code for fault in refused.value.faults}


def test_weights_that_miss_100_are_named():
    assert codes({"x": 60, "y": 30}, {"a": 100}) == {"weights-sum"}


def test_a_level_without_its_sentence_is_named():
    assert codes({"x": 100}, {"a": {"weight": 100, "levels": {"1": "bad", "3": "good"}}}) == {"levels-missing"}


def test_a_sentence_for_no_level_is_named():
    given = {"1": "a", "2": "b", "3": "c", "4": "d", "5": "e"}
    assert codes({"x": 100}, {"a": {"weight": 100, "levels": given}}) == {"no-such-level"}


def test_a_floor_outside_the_scale_is_named():
    assert codes({"x": {"weight": 100, "floor_level": 5}}, {"a": 100}) == {"outside-scale"}


def test_a_floor_above_100_per_cent_is_named():
    assert codes({"x": {"weight": 100, "floor": 101}}, {"a": 100}) == {"not-a-number"}


def test_a_criterion_that_nobody_judges_is_named():
    assert codes({"x": {"weight": 100, "criteria": ["a"]}}, {"a": 50, "b": 50}) == {"never-judged"}


def test_names_that_stand_twice_are_named():
    given = document({"x": 50, "y": 50}, {"a": 100})
    given["parts"][1]["id"] = "x"
    with pytest.raises(RefusedError) as refused:
        read_practical(node_of(given))
    assert {fault.code for fault in refused.value.faults} == {"named-twice"}


def test_unknown_fields_and_wrong_numbers_are_named_together():
    found = codes({"x": {"weight": "lots", "colour": "red"}}, {"a": 100})
    assert found == {"not-a-number", "unknown"}


def test_an_upside_down_scale_is_named():
    assert "not-a-scale" in codes({"x": 100}, {"a": 100}, scale={"lowest": 4, "highest": 1})


@pytest.mark.parametrize("given", ["text", None, ["a"], {}, {"parts": "x", "criteria": {"a": 1}, "cut": []}])
def test_what_is_no_practical_at_all_is_refused_and_never_breaks(given):
    with pytest.raises(RefusedError):
        read_practical(node_of(given))


def test_a_number_with_a_monstrous_exponent_is_refused():
    assert codes({"x": {"weight": "1e999999999"}}, {"a": 100}) == {"not-a-number"}


def test_defaults_are_those_of_the_specification():
    made = practical({"x": 100}, {"a": 100})
    assert (made.examiners, made.left_out, made.months_apart, made.sample.random) == (
        2,
        20,
        24,
        10,
    )
