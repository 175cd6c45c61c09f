"""YAML that means harm: few lines that stand for very much, or for themselves."""

import pytest
import yaml

from app.files import yaml as reader
from app.files.yaml import MOST_NODES, parse_yaml
from curriculum.faults import RefusedError


def doubling(levels: int, each: int = 9) -> str:
    """The widely known shape of an expansion attack: every line refers `each` times to the line before."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * each)}]" for i in range(1, levels)]
    return "\n".join(lines)


def refused(text: str) -> list[str]:
    with pytest.raises(RefusedError) as refusal:
        parse_yaml(text, "bomb.yaml")
    return [str(fault) for fault in refusal.value.faults]


def test_references_that_multiply_are_refused_at_the_line_where_it_is_too_much() -> None:
    (said,) = refused(doubling(9))
    assert said == (f"bomb.yaml:1: holds more than {MOST_NODES} values, references to others counted each time")


def test_many_plain_values_are_refused_as_well(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.files.yaml.MOST_NODES", 100)
    assert refused("- x\n" * 101)[0].startswith("bomb.yaml:100: holds more than 100 values")
    assert len(parse_yaml("- x\n" * 99, "fine.yaml").value) == 99


def test_a_reference_or_two_are_fine() -> None:
    node = parse_yaml(doubling(3), "fine.yaml")
    assert len(node.value["a2"].value[8].value[8].value) == 9


@pytest.mark.parametrize("text", ["a: &a [*a]", "a: &a [*a, *a]"])
def test_what_refers_to_itself_is_refused(text: str) -> None:
    assert "refers to itself" in refused(text)[0]


WRITTEN = (
    "a: ~\nb: '~'\nc: \"\"\nd:\ne: 08\nf: 12:30\ng: yes\n",
    "a: |\n  kept\n   as it is\n\nb: >-\n  folded\n  once\n\n  twice\nc: last\n",
    "# first\n- {a: 1, 'b': [2, 3]}\n-\n  - x\n  # between\n  - \"\\u00e9 \\x41\"\n",
    "- &one {a: x}\n- *one\n- ! tagged\n- !!str 7\n",
    "? long key\n: value\n'quoted key': 𝄞 é\n",
    "a: 1\na: 2\n",
    "a: [1, 2\nb: 3\n",
    "a: 1\n\tb: 2\n",
    "- *nobody\n",
    "a: b: c\n",
    "--- one\n--- two\n",
    "a: \x01\n",
    "a: \ud800\n",
    "[" * 3000,
)


@pytest.mark.parametrize("text", WRITTEN)
def test_both_of_the_librarys_readers_say_the_same(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The fast one stands in for the one written in Python, which is the reference here."""

    def said() -> object:
        try:
            return parse_yaml(text, "some.yaml")
        except RefusedError as refusal:
            return [(str(fault), fault.line) for fault in refusal.faults]

    fast = said()
    monkeypatch.setattr(reader, "FAST", yaml.SafeLoader)
    assert fast == said()
