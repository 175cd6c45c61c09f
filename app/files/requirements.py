"""Requirement sets read from YAML."""

from pathlib import Path

from app.files.yaml import parse_yaml, read_yaml
from curriculum.document import Node
from curriculum.faults import RefusedError
from curriculum.requirements.reading import read_requirements
from curriculum.requirements.requirement_set import RequirementSet


def requirements_from_file(path: Path | str) -> RequirementSet:
    """The set in a file; raises `RefusedError`, each fault with file and line."""
    return _read(read_yaml(path), str(path))


def requirements_from_text(text: bytes | str, name: str) -> RequirementSet:
    """The set in a text that was sent or stored as `name`; raises `RefusedError`."""
    return _read(parse_yaml(text, name), name)


def _read(node: Node, name: str) -> RequirementSet:
    try:
        return read_requirements(node)
    except RefusedError as error:
        raise RefusedError(fault.within(name) for fault in error.faults) from error
