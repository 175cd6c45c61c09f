"""Readiness criteria as published, and what a school calls what a gate of hours may ask for."""

import json
from collections.abc import Mapping
from functools import lru_cache

from app.files.readiness import readiness_from_text
from app.queries.exam_facts import practical_in
from app.storage.editions import Edition
from app.storage.work import Work
from assessments.readiness.criteria import ReadinessCriteria


def criteria_of(edition: Edition) -> ReadinessCriteria:
    """The criteria of a published edition; editions never change, so each is read once."""
    return _read(json.dumps(edition.documents, sort_keys=True))


@lru_cache(maxsize=64)
def _read(documents: str) -> ReadinessCriteria:
    ((name, text),) = json.loads(documents).items()
    return readiness_from_text(text, name)


def fact_titles(work: Work) -> Mapping[tuple[str, str], str]:
    """What the newest practicals and readiness call what a gate may ask for, by kind and id."""
    found: dict[tuple[str, str], str] = {}
    for kind in ("practical", "readiness"):
        for edition in sorted(work.editions.of_kind(kind), key=lambda one: one.published_at):
            if kind == "readiness":
                found |= {(one.kind, one.id): one.title for one in criteria_of(edition).criteria}
            else:
                made = practical_in(json.dumps(edition.documents, sort_keys=True))
                found["practical", made.id] = made.title
    return found
