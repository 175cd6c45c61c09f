"""What differs between two editions, in groups to be read, word by word."""

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher

from app.files.editions import compare_documents
from app.wording.editions import CHANGES
from app.wording.languages import Language
from curriculum.document_differences import DocumentDifference
from curriculum.repertoire.comparing import Comparison, Difference

MOST_DIFFERENCES = 400


@dataclass(frozen=True, slots=True)
class ShownDifference:
    """One value that differs, under a heading such as an exercise."""

    place: str
    before: str
    after: str

    @property
    def pieces(self) -> list[tuple[str, str]]:
        """The words in a row: ("del", text) for those gone, ("ins", text) for new ones, ("", text) for the rest."""
        old, new = self.before.split(), self.after.split()
        found: list[tuple[str, str]] = []
        for what, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
            if what == "equal":
                found.append(("", " ".join(old[a:b])))
                continue
            found += [("del", " ".join(old[a:b]))] if b > a else []
            found += [("ins", " ".join(new[c:d]))] if d > c else []
        return found


@dataclass(frozen=True, slots=True)
class DifferenceGroup:
    """What happened to one thing: a word for it, what it is, and its values that differ."""

    what: str
    title: str
    differences: tuple[ShownDifference, ...]


def difference_groups(
    kind: str, before: Mapping[str, str], after: Mapping[str, str], language: Language
) -> tuple[DifferenceGroup, ...]:
    """The differences of two editions in groups to be read."""
    found = compare_documents(kind, before, after)
    if isinstance(found, Comparison):
        return tuple(_repertoire_groups(found, language))
    groups: dict[str, list[DocumentDifference]] = {}
    for one in found:
        groups.setdefault(".".join(one.place.split(".")[:2]), []).append(one)
    changed = language(CHANGES["changed"])
    return tuple(
        DifferenceGroup(changed, title, tuple(ShownDifference(one.place, one.before, one.after) for one in own))
        for title, own in groups.items()
    )


def _repertoire_groups(found: Comparison, language: Language) -> list[DifferenceGroup]:
    def shown(differences: tuple[Difference, ...]) -> tuple[ShownDifference, ...]:
        return tuple(ShownDifference(one.path, one.before, one.after) for one in differences)

    lists = (("added", found.added), ("removed", found.removed), ("moved", found.moved))
    groups = [DifferenceGroup(language(CHANGES[what]), id, ()) for what, ids in lists for id in ids]
    changed = language(CHANGES["changed"])
    groups += [DifferenceGroup(changed, one.exercise, shown(one.differences)) for one in found.changed]
    if found.shared:
        groups.append(DifferenceGroup(changed, language(CHANGES["shared"]), shown(found.shared)))
    return groups


def cut(groups: tuple[DifferenceGroup, ...]) -> tuple[tuple[DifferenceGroup, ...], int]:
    """At most so many values; how many groups are left off."""
    shown, values = [], 0
    for group in groups:
        values += max(len(group.differences), 1)
        if values > MOST_DIFFERENCES:
            break
        shown.append(group)
    return tuple(shown), len(groups) - len(shown)
