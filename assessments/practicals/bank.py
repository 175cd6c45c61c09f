"""A bank of exercises to draw from."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import exp


@dataclass(frozen=True, slots=True)
class BankExercise:
    """One exercise; `difficulty` in logits (or the director's scale), `minutes` long, `fields` as written;
    `recently_drawn` counts the lists that held it lately; `candidates` how many the difficulty was measured on, None
    where it is an estimate.
    """

    id: str
    difficulty: float
    minutes: float
    fields: Mapping[str, str]
    recently_drawn: int = 0
    candidates: int | None = None

    def is_accepted(self, accepts: Mapping[str, tuple[str, ...]]) -> bool:
        """Whether every named field holds one of its allowed values."""
        return all(self.fields.get(name) in allowed for name, allowed in accepts.items())

    def information(self, at: float) -> float:
        """Rasch information p (1 - p) on a candidate of so many logits."""
        odds = exp(-abs(at - self.difficulty))
        return odds / (1 + odds) ** 2
