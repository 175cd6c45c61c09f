"""Readiness criteria read from YAML."""

from pathlib import Path

from app.files.yaml import parse_yaml, read_yaml
from assessments.readiness.criteria import ReadinessCriteria
from assessments.readiness.reading import read_readiness
from curriculum.document import Node
from curriculum.faults import RefusedError


def readiness_from_file(path: Path | str) -> ReadinessCriteria:
    """The criteria in a file; raises `RefusedError`, each fault with file and line."""
    return _read(read_yaml(path), str(path))


def readiness_from_text(text: bytes | str, name: str) -> ReadinessCriteria:
    """The criteria in a text that was sent or stored as `name`; raises `RefusedError`."""
    return _read(parse_yaml(text, name), name)


def _read(node: Node, name: str) -> ReadinessCriteria:
    try:
        return read_readiness(node)
    except RefusedError as error:
        raise RefusedError(fault.within(name) for fault in error.faults) from error
