"""A described performance: what a candidate did, block by block, and what a reference panel gave for it."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class ReferenceMark:
    """One criterion to be judged; the panel's `level` and reason, None and "" where no reference is set yet."""

    criterion: str
    level: Fraction | None = None
    why: str = ""


@dataclass(frozen=True, slots=True)
class DescribedBlock:
    """One block of the practical in moments, and the criteria that its description lets one judge."""

    block: str
    moments: tuple[str, ...]
    marks: tuple[ReferenceMark, ...]


@dataclass(frozen=True, slots=True)
class Reference:
    """Who set the reference scores and how, in words, and the day."""

    how: str
    set_on: date | None = None


@dataclass(frozen=True, slots=True)
class Performance:
    """One described performance; without `reference` the school's founding panel sets it by scoring alone."""

    id: str
    title: str
    setting: str
    blocks: tuple[DescribedBlock, ...]
    reference: Reference | None = None

    @property
    def places(self) -> tuple[tuple[str, str], ...]:
        """Every (block, criterion) that is judged."""
        return tuple((block.block, mark.criterion) for block in self.blocks for mark in block.marks)

    @property
    def levels(self) -> dict[tuple[str, str], Fraction]:
        """The reference panel's levels; empty without a reference."""
        return {
            (block.block, mark.criterion): mark.level
            for block in self.blocks
            for mark in block.marks
            if mark.level is not None
        }

    def why(self, block: str, criterion: str) -> str:
        """The panel's reason for its level, or nothing."""
        marks = (mark for one in self.blocks if one.block == block for mark in one.marks)
        return next((mark.why for mark in marks if mark.criterion == criterion), "")


@dataclass(frozen=True, slots=True)
class Performances:
    """One edition of described performances for one practical (its id); `frame` says what they are not."""

    title: str
    frame: str
    practical: str
    performances: tuple[Performance, ...]

    def one(self, performance_id: str) -> Performance | None:
        return next((one for one in self.performances if one.id == performance_id), None)
