"""Described performances read from YAML, and an examiner's levels as they are kept."""

import json
from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache

from app.files.yaml import parse_yaml
from assessments.calibration.performance import Performances
from assessments.calibration.reading import read_performances
from curriculum.faults import RefusedError


def performances_from_text(text: bytes | str, name: str) -> Performances:
    """The performances in a text that was sent or stored as `name`; raises `RefusedError`."""
    try:
        return read_performances(parse_yaml(text, name))
    except RefusedError as error:
        raise RefusedError(fault if fault.source else fault.within(name) for fault in error.faults) from error


@lru_cache(maxsize=32)
def published_performances(text: str) -> Performances:
    """The performances of an edition's text; what is published never changes, so it is read once."""
    return performances_from_text(text, "")


def write_levels(levels: Mapping[tuple[str, str], Fraction]) -> str:
    """Levels as JSON: block, then criterion, then the level as an exact fraction."""
    found: dict[str, dict[str, str]] = {}
    for (block, criterion), level in levels.items():
        found.setdefault(block, {})[criterion] = str(level)
    return json.dumps(found, sort_keys=True)


def read_levels(text: str) -> dict[tuple[str, str], Fraction]:
    return {
        (block, criterion): Fraction(level)
        for block, levels in json.loads(text).items()
        for criterion, level in levels.items()
    }
