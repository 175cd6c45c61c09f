"""Readiness criteria as a document: every fault at once, and no circles."""

import pytest

from assessments.readiness.reading import read_readiness
from curriculum.document import node_of
from curriculum.faults import RefusedError


def document(*criteria):
    filled = [{"kind": "module", "title": "T", **one} for one in criteria]
    return {"id": "p", "title": "P", "edition": "1", "criteria": filled}


def codes(given):
    with pytest.raises(RefusedError) as refused:
        read_readiness(node_of(given))
    return {fault.code for fault in refused.value.faults}


def test_a_subject_is_the_id_unless_it_is_given():
    made = read_readiness(node_of(document({"id": "a"}, {"id": "b", "subject": "c"})))
    assert [one.subject for one in made.criteria] == ["a", "c"]


def test_a_circle_is_named():
    assert codes(document({"id": "a", "after": ["b"]}, {"id": "b", "part_after": ["a"]})) == {"circle"}


def test_an_unknown_gate_and_a_name_that_stands_twice_are_named_together():
    assert codes(document({"id": "a", "after": ["x"]}, {"id": "a"})) == {"no-such-criterion", "named-twice"}


@pytest.mark.parametrize("given", ["text", None, [], {}, {"criteria": []}, {"criteria": {"a": "b"}}])
def test_what_is_no_document_of_the_kind_is_refused_and_never_breaks(given):
    assert codes(given)
