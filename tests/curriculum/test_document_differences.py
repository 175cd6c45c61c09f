"""Documents compared. Expected differences are those of RFC 6902 (JSON Patch): add, remove, replace, by member."""

from curriculum.document import node_of
from curriculum.document_differences import DocumentDifference as Difference
from curriculum.document_differences import document_differences


def found(before: object, after: object) -> list[Difference]:
    return list(document_differences(node_of(before), node_of(after)))


def test_equal_documents_have_no_differences_whatever_the_order_of_their_members():
    assert found({"a": "1", "b": ["x"]}, {"b": ["x"], "a": "1"}) == []


def test_a_member_added_removed_and_replaced():
    assert found({"foo": "bar", "old": "x"}, {"foo": "baz", "new": "y"}) == [
        Difference("foo", "bar", "baz"),
        Difference("new", "", "y"),
        Difference("old", "x", ""),
    ]


def test_elements_with_an_id_are_compared_by_it_not_by_place():
    before = {"rules": [{"id": "a", "at_least": "10 h"}, {"id": "b", "at_least": "5 h"}]}
    after = {
        "rules": [{"id": "new", "at_least": "1 h"}, {"id": "a", "at_least": "12 h"}, {"id": "b", "at_least": "5 h"}]
    }
    assert found(before, after) == [
        Difference("rules.new", "", "id: new, at_least: 1 h"),
        Difference("rules.a.at_least", "10 h", "12 h"),
    ]


def test_a_changed_order_alone_is_told():
    assert found({"r": [{"id": "a"}, {"id": "b"}]}, {"r": [{"id": "b"}, {"id": "a"}]}) == [
        Difference("r", "a, b", "b, a")
    ]


def test_plain_lists_are_replaced_whole():
    assert found({"l": ["a", "b"]}, {"l": ["a", "c"]}) == [Difference("l", "a; b", "a; c")]


def test_an_added_nested_member_as_in_rfc_6902_a_10():
    assert found({"foo": "bar"}, {"foo": "bar", "child": {"grandchild": {}}}) == [
        Difference("child", "", "grandchild: ")
    ]
