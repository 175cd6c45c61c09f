"""Practicals read from YAML."""

from pathlib import Path

from app.files.yaml import parse_yaml, read_yaml
from assessments.practicals.reading import read_practical
from assessments.practicals.specification import Practical
from curriculum.document import Node
from curriculum.faults import RefusedError


def practical_from_file(path: Path | str) -> Practical:
    """The practical in a file; raises `RefusedError`, each fault with file and line."""
    return _read(read_yaml(path), str(path))


def practical_from_text(text: bytes | str, name: str) -> Practical:
    """The practical in a text that was sent or stored as `name`; raises `RefusedError`."""
    return _read(parse_yaml(text, name), name)


def _read(node: Node, name: str) -> Practical:
    try:
        return read_practical(node)
    except RefusedError as error:
        raise RefusedError(fault.within(name) for fault in error.faults) from error
