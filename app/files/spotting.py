"""Lessons for fault spotting read from YAML."""

from functools import lru_cache

from app.files.yaml import parse_yaml
from assessments.spotting.lesson import SpottingLessons
from assessments.spotting.reading import read_spotting
from curriculum.faults import RefusedError


def spotting_from_text(text: bytes | str, name: str) -> SpottingLessons:
    """The lessons in a text that was sent or stored as `name`; raises `RefusedError`."""
    try:
        return read_spotting(parse_yaml(text, name))
    except RefusedError as error:
        raise RefusedError(fault if fault.source else fault.within(name) for fault in error.faults) from error


@lru_cache(maxsize=32)
def published_lessons(text: str) -> SpottingLessons:
    """The lessons of an edition's text; what is published never changes, so it is read once."""
    return spotting_from_text(text, "")
