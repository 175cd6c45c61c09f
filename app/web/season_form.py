"""The form of an examination plan: how many examiners, how many blocks."""

from collections.abc import Mapping
from dataclasses import dataclass

from assessments.season.plans import MOST_BLOCKS, MOST_EXAMINERS
from curriculum.faults import N_, Fault, RefusedError


@dataclass(frozen=True, slots=True)
class PlanForm:
    """A plan as typed; None where nothing was asked."""

    examiners: str | None = None
    blocks: str | None = None

    @classmethod
    def typed(cls, asked: Mapping[str, str]) -> "PlanForm":
        return cls(asked.get("examiners"), asked.get("blocks"))

    def request(self) -> tuple[int, int] | None:
        """Examiners and blocks, or None when neither was asked; refuses what is no such number, both at once."""
        if self.examiners is None and self.blocks is None:
            return None
        faults: list[Fault] = []
        found = (
            _number(self.examiners, "examiners", MOST_EXAMINERS, faults),
            _number(self.blocks, "blocks", MOST_BLOCKS, faults),
        )
        if faults:
            raise RefusedError(faults)
        return found


def _number(text: str | None, field: str, most: int, faults: list[Fault]) -> int:
    typed = (text or "").strip()
    if typed.isascii() and typed.isdigit() and len(typed) <= 3 and 1 <= int(typed) <= most:
        return int(typed)
    faults.append(Fault("plan", N_("a whole number from 1 to {most}"), {"most": most}, field))
    return 0
