"""The score sheet of a practical that is still being written, as its examiners would see it."""

from dataclasses import dataclass

from app.files.repertoire import edition_from_documents
from app.queries.sheets import Pairs, PartShown, choices_of, parts_shown
from app.storage.work import Work
from app.wording.languages import Language
from assessments.practicals.specification import Practical


@dataclass(frozen=True, slots=True)
class SheetPreview:
    """What the sheet asks, without an exam; exercises are those that the practical itself names."""

    practical: Practical
    parts: tuple[PartShown, ...]
    critical: Pairs
    grades: Pairs
    left_out: Pairs
    manners: Pairs
    noticed: Pairs


def sheet_preview(work: Work, practical: Practical, language: Language) -> SheetPreview:
    """The sheet; exercises by the names of the newest repertoire."""
    newest = work.editions.newest("repertoire")
    names = {one.id: one.name for one in edition_from_documents(newest.documents).exercises} if newest else {}
    named = {part.id: part.exercises.exercises for part in practical.parts if part.exercises}
    return SheetPreview(practical, parts_shown(practical, named, names, language), **choices_of(practical, language))
