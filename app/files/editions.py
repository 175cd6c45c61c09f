"""The documents of an edition of any kind, read: what they hold, or every fault with file and line."""

from collections.abc import Mapping

from app.files.calibration import performances_from_text
from app.files.machines import machines_from_text
from app.files.practicals import practical_from_text
from app.files.readiness import readiness_from_text
from app.files.repertoire import edition_from_documents
from app.files.requirements import requirements_from_text
from app.files.spotting import spotting_from_text
from app.files.yaml import parse_yaml
from curriculum.document_differences import DocumentDifference, document_differences
from curriculum.faults import N_, Fault, RefusedError
from curriculum.repertoire.comparing import Comparison, compare_editions
from curriculum.repertoire.reading import EDITION_FILE, FILE_NAME

ONE_DOCUMENT = {
    "requirements": requirements_from_text,
    "practical": practical_from_text,
    "readiness": readiness_from_text,
    "machines": machines_from_text,
    "spotting": spotting_from_text,
    "performances": performances_from_text,
}
MOST_LETTERS = 400_000
MOST_FILES = 200


def read_documents(kind: str, documents: Mapping[str, str]) -> object:
    """The requirement set, repertoire edition, practical or readiness criteria in these texts by file name.

    Raises `RefusedError` with every fault.
    """
    if kind == "repertoire":
        return edition_from_documents(documents)
    if len(documents) != 1:
        raise RefusedError([Fault("one-file", N_("needs exactly one file"), field="files")])
    ((name, text),) = documents.items()
    return ONE_DOCUMENT[kind](text, name)


def document_faults(kind: str, documents: Mapping[str, str]) -> tuple[Fault, ...]:
    """Everything that keeps these texts from being an edition; empty when nothing does."""
    faults = []
    for name, text in documents.items():
        try:
            parse_yaml(text, name)
        except RefusedError as refusal:
            faults += refusal.faults
    if faults:
        return tuple(faults)
    try:
        read_documents(kind, documents)
    except RefusedError as refusal:
        return refusal.faults
    if not edition_number(kind, "", documents):
        return (Fault("missing", N_("is missing"), field="edition", source=min(documents)),)
    return ()


def edition_number(kind: str, name: str, documents: Mapping[str, str]) -> str:
    """The number that the documents of the edition `name` give themselves, without the name where it begins with it.

    The documents must be without faults.
    """
    file = EDITION_FILE if kind == "repertoire" else next(iter(documents))
    found = parse_yaml(documents[file], file).get("edition")
    return found.value.removeprefix(f"{name}-") if found is not None and found.is_text else ""


def compare_documents(
    kind: str, before: Mapping[str, str], after: Mapping[str, str]
) -> Comparison | tuple[DocumentDifference, ...]:
    """What differs from one edition to another; a repertoire is compared exercise by exercise."""
    if kind == "repertoire":
        return compare_editions(edition_from_documents(before), edition_from_documents(after))
    old, new = (parse_yaml(next(iter(texts.values())), next(iter(texts))) for texts in (before, after))
    return document_differences(old, new)


def file_faults(kind: str, name: str, text: str) -> tuple[Fault, ...]:
    """Why a file can't be part of an edition's documents at all, whatever it says."""
    faults = []
    if not FILE_NAME.fullmatch(name):
        sentence = N_("“{value}” is not a file name: letters, digits, dot, hyphen and underscore, ending in .yaml")
        faults.append(Fault("not-a-file-name", sentence, {"value": name[:90]}, "name"))
    if len(text) > MOST_LETTERS:
        faults.append(Fault("too-long", N_("is longer than {most} letters"), {"most": MOST_LETTERS}, "text"))
    return tuple(faults)
