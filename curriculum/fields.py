"""Members of one mapping taken by name and kind; every fault is gathered, nothing stops at the first."""

import re
from collections.abc import Callable, Iterable
from datetime import date
from fractions import Fraction
from typing import TypeVar

from curriculum.document import Node
from curriculum.faults import N_, Fault

NUMBER = re.compile(r"-?[0-9]{1,7}(\.[0-9]{1,9})?")
YES = {"yes": True, "true": True, "no": False, "false": False}
ID = re.compile(r"[a-z0-9][a-z0-9.-]{0,63}")
MOST_TEXT = 2_000
MOST_ELEMENTS = 1_000
T = TypeVar("T")


class Fields:
    """One mapping: `faults` grows with what is missing or wrong; `close` names what nobody asked for."""

    def __init__(self, node: Node, faults: list[Fault]):
        self.node, self.faults, self._known = node, faults, set()
        if not node.is_mapping:
            faults.append(node.fault("no-mapping", N_("must be a group of named fields")))

    def text(self, key: str, default: str | None = None) -> str:
        """Text on one or more lines, with blanks made single; required without a default."""
        found = self.scalar(key, default is None)
        if found is None:
            return default or ""
        if len(found.value) > MOST_TEXT:
            self.add(found, "too-long", N_("is longer than {most} characters"), most=MOST_TEXT)
        written = " ".join(found.value.split())
        if default is None and not written:
            self.add(found, "blank", N_("is blank"))
        return written

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts; a single text is a list of one."""
        found = self.member(key)
        if found is None:
            return ()
        every = (found,) if found.is_text else found.elements()
        if not every or not all(one.is_text for one in every):
            self.add(found, "not-texts", N_("must be a text or a list of texts"))
            return ()
        for one in every:
            if len(one.value) > MOST_TEXT:
                self.add(one, "too-long", N_("is longer than {most} characters"), most=MOST_TEXT)
        return tuple(" ".join(one.value.split()) for one in every)

    def id(self, key: str, default: str | None = None) -> str:
        """An identifier: small letters, digits, dot and hyphen."""
        found = self.scalar(key, default is None)
        if found is None:
            return default or ""
        if not ID.fullmatch(found.value):
            sentence = N_("“{value}” is not an id: small letters, digits, dot and hyphen, at most 64")
            self.add(found, "not-an-id", sentence, value=found.value)
        return found.value

    def one_of(self, key: str, allowed: Iterable[str], default: str | None = None) -> str:
        """One of the allowed words; "" where it is absent with the default ""."""
        allowed = tuple(allowed)
        found = self.scalar(key, default is None)
        if found is None:
            return default or ""
        if found.value not in allowed:
            sentence = N_("“{value}” is not one of: {allowed}")
            self.add(found, "not-a-choice", sentence, value=found.value, allowed=", ".join(allowed))
        return found.value

    def some_of(self, key: str, allowed: Iterable[str]) -> tuple[str, ...]:
        """A list of allowed words, or a single one; required."""
        allowed = tuple(allowed)
        found = self.member(key, True)
        every = () if found is None else (found,) if found.is_text else found.elements()
        if found is not None and not every:
            self.add(found, "not-words", N_("must be a list of words of: {allowed}"), allowed=", ".join(allowed))
        for one in every:
            if one.value not in allowed:
                sentence = N_("“{value}” is not one of: {allowed}")
                self.add(one, "not-a-choice", sentence, value=one.value, allowed=", ".join(allowed))
        return tuple(one.value for one in every if one.value in allowed)

    def number(self, key: str, low: int, high: int, default: Fraction | int | None = None) -> Fraction:
        """A decimal number within bounds, exact."""
        found = self.scalar(key, default is None)
        if found is None:
            return Fraction(low if default is None else default)
        value = Fraction(found.value) if NUMBER.fullmatch(found.value) else None
        if value is None or not low <= value <= high:
            sentence = N_("“{value}” is not a number from {low} to {high}")
            self.add(found, "not-a-number", sentence, value=found.value, low=low, high=high)
            return Fraction(low)
        return value

    def whole(self, key: str, low: int, high: int, default: int | None = None) -> int:
        """A whole number within bounds."""
        value = self.number(key, low, high, default)
        if value.denominator != 1:
            self.add(self.node.get(key), "not-whole", N_("“{value}” is not a whole number"), value=float(value))
        return int(value)

    def flag(self, key: str, default: bool = False) -> bool:
        """yes or no."""
        found = self.scalar(key)
        if found is None:
            return default
        if found.value.lower() not in YES:
            self.add(found, "not-yes-or-no", N_("“{value}” is neither yes nor no"), value=found.value)
        return YES.get(found.value.lower(), default)

    def day(self, key: str, required: bool = False) -> date | None:
        """A day as 2026-11-25, or None where it is absent or wrong."""
        found = self.scalar(key, required)
        if found is None:
            return None
        try:
            return date.fromisoformat(found.value)
        except ValueError:
            self.add(found, "not-a-day", N_("“{value}” is not a day such as 2026-11-25"), value=found.value)
            return None

    def each(self, key: str, read: "Callable[[Fields], T]", required: bool = False) -> tuple[T, ...]:
        """Every element of a list of mappings, read by `read`."""
        return tuple(self._read(one, read) for one in self.elements(key, required))

    def elements(self, key: str, required: bool = False) -> tuple[Node, ...]:
        """The elements of a list."""
        found = self.member(key, required)
        if found is None:
            return ()
        if not found.is_list or not found.elements():
            self.add(found, "not-a-list", N_("must be a list with at least one entry"))
        if len(found.elements()) > MOST_ELEMENTS:
            self.add(found, "too-many", N_("has more than {most} entries"), most=MOST_ELEMENTS)
            return ()
        return found.elements()

    def inner(self, key: str, read: "Callable[[Fields], T]", required: bool = False) -> T | None:
        """One mapping within, or None where it is absent."""
        found = self.member(key, required)
        return None if found is None else self._read(found, read)

    def has(self, key: str) -> bool:
        """Whether the member is there and not empty."""
        found = self.node.get(key)
        return found is not None and found.value is not None

    def member(self, key: str, required: bool = False) -> Node | None:
        """The member itself, or None where it is absent or empty."""
        self._known.add(key)
        found = self.node.get(key)
        if found is not None and found.value is not None:
            return found
        if required and self.node.is_mapping:
            place = f"{self.node.path}.{key}" if self.node.path else key
            self.faults.append(
                Fault("missing", N_("is missing"), {}, place, self.node.key_lines.get(key, self.node.line))
            )
        return None

    def fault(self, key: str, code: str, sentence: str, **values: object) -> None:
        """Add a fault at a member, or at the mapping when the member is absent."""
        self.add(self.node.get(key) or self.node, code, sentence, **values)

    def close(self) -> None:
        """Name every member that nobody asked for."""
        known = ", ".join(sorted(self._known))
        for key, node in self.node.items():
            if key not in self._known:
                fault = node.fault("unknown", N_("is not a field here; known are: {known}"), known=known)
                self.faults.append(
                    Fault(
                        fault.code, fault.sentence, fault.values, fault.field, self.node.key_lines.get(key, node.line)
                    )
                )

    def scalar(self, key: str, required: bool = False) -> Node | None:
        """A member that must be a single value."""
        found = self.member(key, required)
        if found is None or found.is_text:
            return found
        self.add(found, "not-a-text", N_("must be a single value"))
        return None

    def add(self, node: Node, code: str, sentence: str, **values: object) -> None:
        """Add a fault at a node."""
        self.faults.append(node.fault(code, sentence, **values))

    def _read(self, node: Node, read: "Callable[[Fields], T]") -> T:
        return read_one(node, self.faults, read, type(self))


def read_one(node: Node, faults: list[Fault], read: Callable[[Fields], T], kind: type[Fields] = Fields) -> T:
    """One mapping read by `read`, with a fault for every member that it did not ask for."""
    fields = kind(node, faults)
    value = read(fields)
    fields.close()
    return value
