"""The walk through what a draft of the repertoire has still to confirm, one exercise at a time."""

from dataclasses import dataclass

from app.files.confirming import Unconfirmed, unconfirmed
from app.files.editions import document_faults
from app.files.repertoire import edition_from_documents
from app.queries.repertoire import all_repetitions_text, level_name
from app.storage.editions import EditionDraft
from app.wording.languages import Language
from app.wording.repertoire import FAMILIES, FIELDS, set_up_rows
from curriculum.faults import N_
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise


@dataclass(frozen=True, slots=True)
class ToConfirm:
    """One exercise of the walk; `fields` are (field, its name, what the draft says of it)."""

    one: Unconfirmed
    name: str
    where: str
    fields: tuple[tuple[str, str, str], ...]
    number: int
    left: int
    following: str


def next_to_confirm(draft: EditionDraft, exercise_id: str, language: Language) -> ToConfirm | None:
    """The exercise with this id if it has something to confirm, else the first that has; None when nothing is left.

    A draft with faults has no walk.
    """
    if draft.kind != "repertoire" or document_faults(draft.kind, draft.documents):
        return None
    found = unconfirmed(draft.documents)
    if not found:
        return None
    at = next((place for place, one in enumerate(found) if one.exercise == exercise_id), 0)
    edition = edition_from_documents(draft.documents)
    exercise = edition.exercise(found[at].exercise)
    apparatus = edition.apparatus_named(exercise.apparatus).name
    return ToConfirm(
        found[at],
        exercise.name,
        language(N_("{apparatus}, {place}"), apparatus=apparatus, place=exercise.place),
        tuple((field, *_said(edition, exercise, field, language)) for field in found[at].fields),
        at + 1,
        len(found),
        found[(at + 1) % len(found)].exercise,
    )


def _said(edition: Edition, exercise: Exercise, field: str, language: Language) -> tuple[str, str]:
    """A field's name and value in words; empty where the exercise's page is the place to read it."""
    name = language(FIELDS[field]) if field in FIELDS else field.replace("_", " ")
    rows = dict(set_up_rows(exercise.set_up, (), language))
    values = {
        "repetitions": lambda: all_repetitions_text(exercise, language),
        "place": lambda: language.figure(exercise.place),
        "level": lambda: level_name(edition, exercise.level),
        "body": lambda: exercise.set_up.body,
        "families": lambda: language.listed([language(FAMILIES[one]) for one in exercise.families]),
        "set_up": lambda: language.listed([f"{term}: {text}" for term, text in rows.items()]),
    }
    return name, values[field]() if field in values else rows.get(name, "")
