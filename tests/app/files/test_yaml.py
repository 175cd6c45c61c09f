"""YAML that means harm: few lines that stand for very much, or for themselves."""

import pytest

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
