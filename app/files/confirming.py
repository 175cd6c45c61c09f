"""What a school has still to confirm in a draft of the repertoire, and the files with a confirmation written in."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from app.files.yaml import parse_yaml
from curriculum.repertoire.reading import EDITION_FILE

INLINE = re.compile(r"^(?P<lead>\s*(?:-\s+)?confirm:\s*)\[(?P<fields>[^\]]*)\](?P<rest>.*)$")


@dataclass(frozen=True, slots=True)
class Unconfirmed:
    """An exercise with fields that the school has still to confirm, and the line where it says so."""

    file: str
    line: int
    exercise: str
    fields: tuple[str, ...]


def unconfirmed(documents: Mapping[str, str]) -> tuple[Unconfirmed, ...]:
    """Every exercise with something to confirm, in the order of the edition; the documents must be without faults."""
    edition = parse_yaml(documents[EDITION_FILE], EDITION_FILE)
    found = []
    for listed in edition.get("series").elements():
        for exercise in parse_yaml(documents[listed.value], listed.value).get("exercises").elements():
            node = exercise.get("confirm")
            fields = tuple(one.value for one in (node.elements() or (node,))) if node and node.value else ()
            if fields:
                found.append(Unconfirmed(listed.value, node.line, exercise.get("id").value, fields))
    return tuple(found)


def with_confirmed(text: str, one: Unconfirmed, fields: frozenset[str]) -> str:
    """The file with these fields of the exercise confirmed; comments and everything else stay as they are.

    Raises `ValueError` where the list is not written on one line in brackets.
    """
    lines = text.split("\n")
    found = INLINE.match(lines[one.line - 1])
    if found is None:
        raise ValueError(lines[one.line - 1])
    kept = [name for name in one.fields if name not in fields]
    if kept:
        lines[one.line - 1] = f"{found['lead']}[{', '.join(kept)}]{found['rest']}"
    else:
        del lines[one.line - 1]
    return "\n".join(lines)
