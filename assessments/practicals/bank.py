"""A bank of exercises to draw from."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BankExercise:
    """One exercise; `difficulty` in logits (or the director's scale), `minutes` long, `fields` as written;
    `recently_drawn` counts the lists that held it lately.
    """

    id: str
    difficulty: float
    minutes: float
    fields: Mapping[str, str]
    recently_drawn: int = 0

    def is_accepted(self, accepts: Mapping[str, tuple[str, ...]]) -> bool:
        """Whether every named field holds one of its allowed values."""
        return all(self.fields.get(name) in allowed for name, allowed in accepts.items())
