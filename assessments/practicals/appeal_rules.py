"""What an edition says of appeals and complaints beforehand."""

from dataclasses import dataclass
from typing import Literal

Direction = Literal["raise", "keep", "lower"]
DIRECTIONS: tuple[Direction, ...] = ("raise", "keep", "lower")


@dataclass(frozen=True, slots=True)
class Appeals:
    """Days after the decision to file one, days after the filing to decide it, and where it may lead."""

    within_days: int = 28
    answer_days: int = 42
    may: tuple[Direction, ...] = ("raise", "keep")
