"""The typed members of one mapping of a document; whatever is wrong is gathered, nothing stops at the first."""

import re
from collections.abc import Callable, Iterable
from datetime import date
from fractions import Fraction
from typing import TypeVar

from curriculum.document import Node
from curriculum.faults import N_, Fault

NUMBER = re.compile(r"-?[0-9]{1,6}(\.[0-9]{1,6})?")
YES = {"yes": True, "true": True, "no": False, "false": False}
NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.-]{0,63}")
MOST_TEXT = 2_000
T = TypeVar("T")


class Fields:
    """Takes members by name and kind; `faults` grows with what is missing, wrong or unknown."""

    def __init__(self, node: Node, faults: list[Fault]):
        self.node, self.faults, self._taken = node, faults, set()
        if not node.is_mapping:
            faults.append(node.fault("no-mapping", N_("must be a group of named fields")))

    def text(self, key: str, default: str | None = None) -> str:
        """One line or paragraph of text; required without a default."""
        found = self._scalar(key, default is None)
        if found is None:
            return default or ""
        if len(found.value) > MOST_TEXT:
            self._add(
                found,
                "too-long",
                N_("is longer than {most} characters"),
                most=MOST_TEXT,
            )
        return found.value.strip()

    def name(self, key: str) -> str:
        """An identifier: letters, digits, dot, hyphen, underscore."""
        found = self._scalar(key, True)
        if found is None:
            return ""
        if not NAME.fullmatch(found.value):
            allowed = N_("{value} is not a name: letters, digits, dot, hyphen and underscore, at most 64")
            self._add(found, "not-a-name", allowed, value=found.value)
        return found.value

    def choice(self, key: str, allowed: Iterable[str], default: str | None = None) -> str:
        """One of the allowed words."""
        allowed = tuple(allowed)
        found = self._scalar(key, default is None)
        if found is None:
            return default or allowed[0]
        if found.value not in allowed:
            sentence = N_("{value} is not one of {allowed}")
            self._add(
                found,
                "not-a-choice",
                sentence,
                value=found.value,
                allowed=", ".join(allowed),
            )
        return found.value if found.value in allowed else allowed[0]

    def number(self, key: str, low: int, high: int, default: Fraction | int | None = None) -> Fraction:
        """A decimal number within bounds, exact."""
        found = self._scalar(key, default is None)
        if found is None:
            return Fraction(low if default is None else default)
        value = Fraction(found.value) if NUMBER.fullmatch(found.value) else None
        if value is None or not low <= value <= high:
            sentence = N_("{value} is not a number from {low} to {high}")
            self._add(found, "not-a-number", sentence, value=found.value, low=low, high=high)
            return Fraction(low)
        return value

    def maybe_number(self, key: str, low: int, high: int) -> Fraction | None:
        """A number, or None where the field is absent."""
        return self.number(key, low, high) if self.has(key) else None

    def whole(self, key: str, low: int, high: int, default: int | None = None) -> int:
        """A whole number within bounds."""
        value = self.number(key, low, high, default)
        if value.denominator != 1:
            self._add(
                self.node.get(key),
                "not-whole",
                N_("{value} is not a whole number"),
                value=float(value),
            )
        return int(value)

    def maybe_whole(self, key: str, low: int, high: int) -> int | None:
        """A whole number, or None where the field is absent."""
        return self.whole(key, low, high) if self.has(key) else None

    def flag(self, key: str, default: bool) -> bool:
        """yes or no."""
        found = self._scalar(key, False)
        if found is None:
            return default
        if found.value.lower() not in YES:
            self._add(
                found,
                "not-yes-or-no",
                N_("{value} is neither yes nor no"),
                value=found.value,
            )
        return YES.get(found.value.lower(), default)

    def day(self, key: str) -> date | None:
        """A day as 2026-11-25, or None where the field is absent."""
        found = self._scalar(key, False)
        if found is None:
            return None
        try:
            return date.fromisoformat(found.value)
        except ValueError:
            self._add(
                found,
                "not-a-day",
                N_("{value} is not a day such as 2026-11-25"),
                value=found.value,
            )
            return None

    def names(self, key: str, default: tuple[str, ...] | None = None) -> tuple[str, ...]:
        """A list of short texts."""
        found = self.member(key, default is None)
        if found is None:
            return default or ()
        if not found.is_list or not all(one.is_text for one in found.elements()):
            self._add(found, "not-a-list", N_("must be a list of names"))
            return ()
        return tuple(one.value for one in found.elements())

    def each(self, key: str, read: "Callable[[Fields], T]", required: bool = True) -> tuple[T, ...]:
        """Every element of a list of mappings, read by `read`."""
        found = self.member(key, required)
        if found is None:
            return ()
        if not found.is_list or (required and not found.elements()):
            self._add(found, "not-a-list", N_("must be a list with at least one entry"))
            return ()
        return tuple(_read_one(one, self.faults, read) for one in found.elements())

    def inner(self, key: str, read: "Callable[[Fields], T]") -> T | None:
        """One mapping within, or None where it is absent."""
        found = self.member(key, False)
        return None if found is None else _read_one(found, self.faults, read)

    def has(self, key: str) -> bool:
        found = self.node.get(key)
        return found is not None and found.value is not None

    def member(self, key: str, required: bool) -> Node | None:
        self._taken.add(key)
        found = self.node.get(key)
        if found is not None and found.value is not None:
            return found
        if required and self.node.is_mapping:
            place = f"{self.node.path}.{key}" if self.node.path else key
            self.faults.append(Fault("missing", N_("is missing"), {}, place, self.node.line))
        return None

    def fault(self, key: str, code: str, sentence: str, **values: object) -> None:
        """Add a fault at a member, or at the mapping when the member is absent."""
        self._add(self.node.get(key) or self.node, code, sentence, **values)

    def close(self) -> None:
        """Name every member that nobody asked for."""
        known = ", ".join(sorted(self._taken))
        for key, node in self.node.items():
            if key not in self._taken:
                self._add(
                    node,
                    "unknown",
                    N_("is not a field here; known are {known}"),
                    known=known,
                )

    def _scalar(self, key: str, required: bool) -> Node | None:
        found = self.member(key, required)
        if found is None or found.is_text:
            return found
        self._add(found, "not-a-text", N_("must be a single value"))
        return None

    def _add(self, node: Node, code: str, sentence: str, **values: object) -> None:
        self.faults.append(node.fault(code, sentence, **values))


def _read_one(node: Node, faults: list[Fault], read: Callable[[Fields], T]) -> T:
    fields = Fields(node, faults)
    value = read(fields)
    fields.close()
    return value
