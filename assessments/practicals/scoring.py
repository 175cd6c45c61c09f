"""From sheets to per cent, in exact fractions.

A level counts (level − lowest) / (highest − lowest), reversed where the scale is; sheets are averaged
per criterion and block, then weighted over criteria, blocks and parts. What no sheet has a level for
leaves numerator and denominator.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction

from assessments.practicals.sheets import Sheet
from assessments.practicals.specification import HUNDRED, Cell, Practical


@dataclass(frozen=True, slots=True)
class CellScore:
    """One criterion on one block: each sheet's level (None where left out) and the average share, 0 to 1."""

    cell: Cell
    levels: tuple[Fraction | None, ...]
    share: Fraction | None


@dataclass(frozen=True, slots=True)
class Score:
    """An average in per cent (None: nothing was scored) against its floor (None: there is no floor)."""

    id: str
    title: str
    per_cent: Fraction | None
    floor: Fraction | None

    @property
    def reached(self) -> bool:
        """No floor, nothing to hold against it, or reached."""
        return self.floor is None or self.per_cent is None or self.per_cent >= self.floor


@dataclass(frozen=True, slots=True)
class Scores:
    """All averages of an exam in per cent; `left_out` is the weight that nobody scored.

    `by_sheet` holds each sheet's own total, in the order of the sheets.
    """

    total: Fraction | None
    left_out: Fraction
    by_sheet: tuple[tuple[str, Fraction | None], ...]
    parts: tuple[Score, ...]
    criteria: tuple[Score, ...]
    groups: tuple[Score, ...]
    cells: tuple[CellScore, ...]


def score(practical: Practical, sheets: tuple[Sheet, ...]) -> Scores:
    """The averages over these sheets; give it the standing ones (`sheets.standing`)."""
    levels = [{(mark.block, mark.criterion): mark.level for mark in sheet.marks} for sheet in sheets]
    cells = tuple(
        _cell_score(cell, [one.get((cell.block, cell.criterion)) for one in levels]) for cell in practical.cells()
    )
    return Scores(
        total=_average(cells),
        left_out=sum((one.cell.weight for one in cells if one.share is None), Fraction(0)),
        by_sheet=tuple((sheet.examiner, _average(_alone(cells, place))) for place, sheet in enumerate(sheets)),
        parts=tuple(_score(part, cells, lambda cell, part=part: cell.part == part.id) for part in practical.parts),
        criteria=tuple(
            _score(one, cells, lambda cell, one=one: cell.criterion == one.id) for one in practical.criteria
        ),
        groups=tuple(
            _score(one, cells, lambda cell, one=one: cell.criterion in one.criteria) for one in practical.groups
        ),
        cells=cells,
    )


def _cell_score(cell: Cell, levels: list[Fraction | None]) -> CellScore:
    shares = [cell.scale.share(level) for level in levels if level is not None]
    return CellScore(cell, tuple(levels), sum(shares) / len(shares) if shares else None)


def _alone(cells: Iterable[CellScore], place: int) -> tuple[CellScore, ...]:
    return tuple(_cell_score(one.cell, [one.levels[place]]) for one in cells)


def _average(cells: Iterable[CellScore]) -> Fraction | None:
    scored = [one for one in cells if one.share is not None]
    weight = sum(one.cell.weight for one in scored)
    return sum(one.share * one.cell.weight for one in scored) / weight * HUNDRED if weight else None


def _score(thing, cells: tuple[CellScore, ...], belongs: Callable[[Cell], bool]) -> Score:
    per_cent = _average(one for one in cells if belongs(one.cell))
    return Score(thing.id, thing.title, per_cent, thing.floor)
