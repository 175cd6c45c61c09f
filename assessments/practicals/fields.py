"""The members of a mapping that only what is judged has: names with capitals, choices with a first, what may be left out."""

import re
from collections.abc import Iterable
from fractions import Fraction

from curriculum.faults import N_
from curriculum.fields import Fields

NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.-]{0,63}")


class JudgedFields(Fields):
    """Fields of a practical or of readiness; `each` and `inner` hand on fields of the same kind."""

    def name(self, key: str) -> str:
        """An identifier: letters, digits, dot, hyphen, underscore."""
        found = self.scalar(key, True)
        if found is None:
            return ""
        if not NAME.fullmatch(found.value):
            sentence = N_("“{value}” is not a name: letters, digits, dot, hyphen and underscore, at most 64")
            self.add(found, "not-a-name", sentence, value=found.value)
        return found.value

    def choice(self, key: str, allowed: Iterable[str], default: str | None = None) -> str:
        """One of the allowed words; the first of them where what is written is none."""
        allowed = tuple(allowed)
        word = self.one_of(key, allowed, default)
        return word if word in allowed else allowed[0]

    def maybe_number(self, key: str, low: int, high: int) -> Fraction | None:
        """A number, or None where the field is absent."""
        return self.number(key, low, high) if self.has(key) else None

    def maybe_whole(self, key: str, low: int, high: int) -> int | None:
        """A whole number, or None where the field is absent."""
        return self.whole(key, low, high) if self.has(key) else None

    def names(self, key: str, default: tuple[str, ...] | None = None) -> tuple[str, ...]:
        """A list of short texts."""
        found = self.member(key, default is None)
        if found is None:
            return default or ()
        if not found.is_list or not all(one.is_text for one in found.elements()):
            self.add(found, "not-a-list", N_("must be a list of names"))
            return ()
        return tuple(one.value for one in found.elements())
