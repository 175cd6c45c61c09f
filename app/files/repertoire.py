"""Editions of the repertoire read from a folder and written to one."""

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

import yaml

from app.files.yaml import parse_yaml, read_yaml
from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.reading import EDITION_FILE, read_edition
from curriculum.repertoire.writing import edition_documents

MOST_FILES = 200
MISSING = "no-such-exercise"


def edition_from_folder(folder: Path | str) -> Edition:
    """The edition in a folder: `edition.yaml` and the series files beside it.

    Raises `RefusedError` with every fault of every file, each with the file's path and line.
    """
    folder = Path(folder)
    faults: list[Fault] = []
    edition = _document(folder / EDITION_FILE, faults)
    series = {path.name: _document(path, faults) for path in _series_files(folder)}
    read = {name: node for name, node in series.items() if node is not None}
    if edition is None:
        raise RefusedError(faults)
    try:
        return read_edition(edition, {**{name: Node(None) for name in series}, **read})
    except RefusedError as error:
        unread = {name for name, node in series.items() if node is None}
        # An exercise that is not there may well stand in the file that could not be read.
        told = [one for one in error.faults if one.source not in unread and not (unread and one.code == MISSING)]
        faults.extend(fault.within(str(folder / fault.source)) for fault in told)
        raise RefusedError(faults) from error


def edition_from_documents(documents: Mapping[str, str]) -> Edition:
    """The edition in texts by file name, `edition.yaml` among them; the same texts are read only once.

    Raises `RefusedError` with the faults of the texts.
    """
    return _edition_from_texts(tuple(sorted(documents.items())))


@lru_cache(maxsize=16)
def _edition_from_texts(texts: tuple[tuple[str, str], ...]) -> Edition:
    read = {name: parse_yaml(text, name) for name, text in texts}
    return read_edition(read.pop(EDITION_FILE, Node(None)), read)


def _series_files(folder: Path) -> list[Path]:
    found = sorted(path for path in folder.glob("*.yaml") if path.name != EDITION_FILE)
    if len(found) > MOST_FILES:
        sentence = N_("holds more than {most} series files")
        raise RefusedError([Fault("too-many", sentence, {"most": MOST_FILES}, source=str(folder))])
    return found


def _document(path: Path, faults: list[Fault]) -> Node | None:
    try:
        return read_yaml(path)
    except RefusedError as error:
        faults.extend(error.faults)
        return None


def edition_to_folder(edition: Edition, folder: Path | str) -> None:
    """Write an edition as `edition.yaml` and its series files into a folder, which is made if need be.

    Reading the folder again gives the same edition; comments of the files it was read from are not kept.
    """
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in edition_texts(edition).items():
        (folder / name).write_text(text, encoding="utf-8")


def edition_texts(edition: Edition) -> dict[str, str]:
    """The edition's files as YAML texts by name."""
    return {
        name: yaml.safe_dump(document, allow_unicode=True, sort_keys=False, width=118)
        for name, document in edition_documents(edition).items()
    }
