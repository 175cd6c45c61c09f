"""A practical's draft as a form: fields are named by their place in the document, such as `criteria/0/levels/1`."""

import re
from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass
from fractions import Fraction

from assessments.practicals.reading import MOST_LEVELS
from curriculum.faults import Fault
from curriculum.fields import NUMBER

PLACE = re.compile(r"[a-z_]{1,30}(/[A-Za-z0-9_.-]{1,30}){0,6}")
LEVELS = re.compile(r"(?P<before>.*levels)\.(?P<level>[^\[\]]+)")
# Lists that are written as names parted by commas.
NAMES = ("strands", "criteria", "grades", "exercises", "admission")
MOST_ELEMENTS = 60


@dataclass(frozen=True, slots=True)
class PracticalForm:
    """The document as it stands, to be read place by place."""

    tree: Mapping[str, object]

    def text(self, place: str) -> str:
        """What stands at a place; a list as names parted by commas; empty where nothing does."""
        found = self.at(place)
        if isinstance(found, list):
            return ", ".join(one for one in found if isinstance(one, str))
        return found if isinstance(found, str) else ""

    def count(self, place: str) -> int:
        """How many elements stand at a place."""
        found = self.at(place)
        return len(found) if isinstance(found, list) else 0

    def at(self, place: str) -> object:
        found: object = self.tree
        for key in place.split("/"):
            if isinstance(found, list):
                found = found[int(key)] if key.isdecimal() and int(key) < len(found) else None
            else:
                found = found.get(key) if isinstance(found, Mapping) else None
        return found

    def levels(self, criterion: int) -> list[str]:
        """The levels of a criterion by its own scale or the practical's; those that stand there where it has none."""
        own = f"criteria/{criterion}/scale"
        scale = own if isinstance(self.at(own), Mapping) else "scale"
        lowest, highest, step = (self.text(f"{scale}/{name}") for name in ("lowest", "highest", "step"))
        standing = self.at(f"criteria/{criterion}/levels")
        listed = list(standing) if isinstance(standing, Mapping) else []
        if not all(NUMBER.fullmatch(one) for one in (lowest, highest, step or "1")):
            return listed
        low, high, by = Fraction(lowest), Fraction(highest), Fraction(step or "1")
        if by <= 0 or high < low or (high - low) / by >= MOST_LEVELS:
            return listed
        found = [_figure(low + by * place) for place in range(int((high - low) / by) + 1)]
        return found + [one for one in listed if one not in found and self.text(f"criteria/{criterion}/levels/{one}")]


def changed(tree: Mapping[str, object], form: Mapping[str, Sequence[str]]) -> dict[str, object]:
    """The document with what was typed, taken out and added; what is left empty is taken out of it."""
    found = deepcopy(dict(tree))
    for name, texts in form.items():
        if name.startswith("at:") and PLACE.fullmatch(name[3:]):
            _set(found, name[3:].split("/"), " ".join(texts[0].split()))
    _prune(found)
    for place in sorted(form.get("take-out", ()), key=_last, reverse=True):
        _take_out(found, place.split("/"))
    for place in form.get("add", ())[:1]:
        if PLACE.fullmatch(place):
            _add(found, place)
    return found


def placed(fault: Fault) -> str:
    """The name of the form's field that a fault of the document is about."""
    found = LEVELS.fullmatch(fault.field)
    path, level = (found["before"], f"/{found['level']}") if found else (fault.field, "")
    return "at:" + path.replace("[", "/").replace("]", "").replace(".", "/") + level


def _set(tree: object, keys: list[str], text: str) -> None:
    """Put a text in its place, making what leads there; an empty text makes nothing and takes out what stood there."""
    for key, following in zip(keys, keys[1:], strict=False):
        if isinstance(tree, list):
            if not key.isdecimal() or int(key) >= len(tree):
                return
            tree = tree[int(key)]
        else:
            if not isinstance(tree.get(key), dict | list):
                if not text:
                    return
                tree[key] = {}
            tree = tree[key]
        if not isinstance(tree, dict | list) or (isinstance(tree, list) and not following.isdecimal()):
            return
    if not isinstance(tree, dict):
        return
    if text:
        tree[keys[-1]] = _names(text) if keys[-1] in NAMES else text
    else:
        tree.pop(keys[-1], None)


def _prune(tree: dict[str, object]) -> None:
    """Take out members that hold nothing any more; an element of a list stays until it is taken out itself."""
    for key, inner in list(tree.items()):
        for one in inner if isinstance(inner, list) else [inner]:
            if isinstance(one, dict):
                _prune(one)
        if inner == {}:
            del tree[key]


def _names(text: str) -> list[str]:
    return [one.strip() for one in text.split(",") if one.strip()]


def _take_out(tree: dict[str, object], keys: list[str]) -> None:
    held = PracticalForm(tree).at("/".join(keys[:-1]))
    if isinstance(held, list) and keys[-1].isdecimal() and int(keys[-1]) < len(held):
        del held[int(keys[-1])]


def _add(tree: dict[str, object], place: str) -> None:
    """One more element at the end of a list."""
    keys = place.split("/")
    held = PracticalForm(tree).at("/".join(keys[:-1])) if len(keys) > 1 else tree
    if isinstance(held, dict):
        listed = held.setdefault(keys[-1], [])
        if isinstance(listed, list) and len(listed) < MOST_ELEMENTS:
            listed.append({})


def _last(place: str) -> int:
    key = place.rpartition("/")[2]
    return int(key) if key.isdecimal() else -1


def _figure(level: Fraction) -> str:
    return str(int(level)) if level.denominator == 1 else str(float(level))
