"""An examiner's levels beside the reference: how far apart, in which direction, and where."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import median

from assessments.calibration.performance import Performance
from assessments.practicals.specification import HUNDRED, Cell, Practical
from curriculum.faults import N_, Fault

Levels = Mapping[tuple[str, str], Fraction]


@dataclass(frozen=True, slots=True)
class Compared:
    """One mark; a reference may lie between two levels, where a founding panel was divided."""

    cell: Cell
    own: Fraction
    reference: Fraction

    @property
    def stricter(self) -> Fraction:
        """By how many levels the examiner is stricter; below 0 more lenient, whichever end of the scale is best."""
        scale = self.cell.scale
        return _shares_apart(self) * (scale.highest - scale.lowest) / scale.step


@dataclass(frozen=True, slots=True)
class Distance:
    """Marks beside their reference; empty `marks` can't be."""

    marks: tuple[Compared, ...]

    @property
    def levels(self) -> Fraction:
        """Mean absolute difference of a mark, in levels."""
        return sum((abs(one.stricter) for one in self.marks), Fraction(0)) / len(self.marks)

    @property
    def stricter(self) -> Fraction:
        """By how many marks of 100 the examiner is stricter on the whole: the reference's total less the examiner's.

        Each mark counts by its weight in the practical.
        """
        weight = sum(one.cell.weight for one in self.marks)
        return sum(_shares_apart(one) * one.cell.weight for one in self.marks) / weight * HUNDRED

    @property
    def same(self) -> int:
        return sum(one.stricter == 0 for one in self.marks)

    @property
    def by_criterion(self) -> dict[str, Fraction]:
        """Mean difference in levels, above 0 stricter, by criterion."""
        found: dict[str, list[Fraction]] = {}
        for one in self.marks:
            found.setdefault(one.cell.criterion, []).append(one.stricter)
        return {id: sum(steps, Fraction(0)) / len(steps) for id, steps in found.items()}


def _shares_apart(one: Compared) -> Fraction:
    return one.cell.scale.share(one.reference) - one.cell.scale.share(one.own)


def cells_of(practical: Practical, performance: Performance) -> tuple[Cell, ...]:
    """What the performance is judged on, in the practical's order."""
    wanted = set(performance.places)
    return tuple(cell for cell in practical.cells() if (cell.block, cell.criterion) in wanted)


def misfits(practical: Practical, performance: Performance) -> Iterator[Fault]:
    """Why this performance can't be scored by this edition of the practical."""
    cells = {(cell.block, cell.criterion): cell for cell in practical.cells()}
    for block, criterion in performance.places:
        if (block, criterion) not in cells:
            sentence = N_("{criterion} is not judged on {block} in this edition of the practical")
            yield Fault("no-such-mark", sentence, {"criterion": criterion, "block": block}, source=performance.title)
    for place, level in performance.levels.items():
        if place in cells and level not in cells[place].scale.levels():
            sentence = N_("{level} is not a level of {criterion}")
            values = {"level": float(level), "criterion": place[1]}
            yield Fault("no-such-level", sentence, values, source=performance.title)


def compare(cells: Sequence[Cell], own: Levels, reference: Levels) -> Distance | None:
    """Own levels beside the reference where both stand; None where nothing does."""
    both = [cell for cell in cells if (cell.block, cell.criterion) in own.keys() & reference.keys()]
    marks = tuple(
        Compared(cell, own[cell.block, cell.criterion], reference[cell.block, cell.criterion]) for cell in both
    )
    return Distance(marks) if marks else None


def together(distances: Iterable[Distance]) -> Distance:
    """The marks of several performances as one."""
    return Distance(tuple(mark for one in distances for mark in one.marks))


def founded(panel: Sequence[Levels]) -> dict[tuple[str, str], Fraction]:
    """The reference that a founding panel sets: the median level of each mark, half way between the two middle ones."""
    places = dict.fromkeys(place for levels in panel for place in levels)
    return {place: Fraction(median(levels[place] for levels in panel if place in levels)) for place in places}
