"""From a season's sent sheets to ratings: who counts, and what is left out and why.

Independent scores are wanted: of each examiner the newest sheet made alone. A version made after the two had talked is
no second opinion; a second marking was called for by the result, so that it would make the season look worse or better
than it is. A block is the unit that statistics of examiners see.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

import numpy as np

from assessments.practicals.sheets import Sheet, standing
from assessments.practicals.specification import Practical


class LeftOut(StrEnum):
    """Why something of a season takes no part in its statistics."""

    VOID = "void"
    WAITING = "waiting"
    SECOND_MARKING = "second-marking"
    AFTER_TALKING = "after-talking"
    NO_LEVEL = "no-level"
    NO_GRADE = "no-grade"


@dataclass(frozen=True, slots=True)
class SeasonExam:
    """One exam of the season; `first` are the examiners whose sheets it waits for, `sheets` every version sent."""

    id: str
    candidate: str
    day: date
    first: frozenset[str]
    sheets: tuple[Sheet, ...]
    void: bool = False


@dataclass(frozen=True, slots=True)
class Gathered:
    """Long arrays, one element a criterion's rating (n,), a block's mark in per cent (b,), or a block's grade (g,).

    `exams`, `examiners`, `blocks` and `criteria` are the labels that codes point into; `days` (exams,) counts days from
    the first. A rating is the number of steps above the worst level. `totals` is each exam's average of the sheets that
    count, in per cent. `left_out` counts exams (void, waiting), sheets (second marking, after talking) or ratings.
    """

    exams: tuple[str, ...] = ()
    candidates: tuple[str, ...] = ()
    examiners: tuple[str, ...] = ()
    blocks: tuple[str, ...] = ()
    criteria: tuple[str, ...] = ()
    days: np.ndarray = field(default_factory=lambda: np.zeros(0, int))
    first_day: date | None = None
    totals: np.ndarray = field(default_factory=lambda: np.zeros(0))
    rating: np.ndarray = field(default_factory=lambda: np.zeros((0, 5), int))
    mark: np.ndarray = field(default_factory=lambda: np.zeros((0, 3), int))
    marks: np.ndarray = field(default_factory=lambda: np.zeros(0))
    grade: np.ndarray = field(default_factory=lambda: np.zeros((0, 4), int))
    sheets: int = 0
    left_out: dict[str, int] = field(default_factory=dict)

    def partners(self, examiner: int) -> frozenset[int]:
        """With whom an examiner shared an exam."""
        shared = np.unique(self.mark[self.mark[:, 1] == examiner, 0])
        return frozenset(self.mark[np.isin(self.mark[:, 0], shared), 1].tolist()) - {examiner}


def gather(practical: Practical, exams: Iterable[SeasonExam]) -> Gathered:
    """The ratings of every exam whose first sheets are all sent and which was not declared void.

    Columns: `rating` exam, examiner, block, criterion, steps; `mark` exam, examiner, block; `grade` exam, examiner,
    block, grade. Until all first sheets of an exam are sent, nobody may see what one of them says, so that it waits.
    """
    left_out: Counter[str] = Counter()
    kept: list[tuple[SeasonExam, tuple[Sheet, ...]]] = []
    for exam in sorted(exams, key=lambda one: (one.day, one.id)):
        sheets = _alone(exam, left_out)
        if exam.void or not exam.first or {one.examiner for one in sheets} != exam.first:
            left_out[LeftOut.VOID if exam.void else LeftOut.WAITING] += 1
        else:
            kept.append((exam, sheets))
    if not kept:
        return Gathered(left_out=dict(left_out))
    return _arrays(practical, kept, left_out)


def _alone(exam: SeasonExam, left_out: Counter) -> tuple[Sheet, ...]:
    own = tuple(
        one
        for one in sorted(exam.sheets, key=lambda one: one.version)
        if not one.second_marking and one.examiner in exam.first
    )
    talked = {one.examiner: one.version for one in reversed(own) if one.after_talking}
    alone = standing(tuple(one for one in own if one.version < talked.get(one.examiner, one.version + 1)))
    if not exam.void:
        left_out[LeftOut.SECOND_MARKING] += len({one.examiner for one in exam.sheets} - {one.examiner for one in own})
        left_out[LeftOut.AFTER_TALKING] += sum(bool(one.after_talking) for one in own)
    return alone


def _arrays(practical: Practical, kept: list, left_out: Counter) -> Gathered:
    cells = _Cells(practical)
    examiners = sorted({one.examiner for _, sheets in kept for one in sheets})
    ratings, marks, values, grades, totals = [], [], [], [], []
    for place, (_, sheets) in enumerate(kept):
        shares = []
        for sheet in sheets:
            who = examiners.index(sheet.examiner)
            steps = cells.steps(sheet)
            left_out[LeftOut.NO_LEVEL] += int(np.isnan(steps).sum())
            seen = np.flatnonzero(~np.isnan(steps))
            ratings += [(place, who, cells.block[at], cells.criterion[at], int(steps[at])) for at in seen]
            shares.append(steps / cells.most)
            for block, value in cells.block_marks(shares[-1]):
                marks.append((place, who, block))
                values.append(value)
            given = {one.block: one.grade for one in sheet.grades}
            left_out[LeftOut.NO_GRADE] += sum(block not in given for block in cells.blocks)
            grades += [(place, who, at, given[block]) for at, block in enumerate(cells.blocks) if block in given]
        totals.append(cells.total(np.array(shares)))
    first = kept[0][0].day
    return Gathered(
        exams=tuple(exam.id for exam, _ in kept),
        candidates=tuple(exam.candidate for exam, _ in kept),
        examiners=tuple(examiners),
        blocks=cells.blocks,
        criteria=cells.criteria,
        days=np.array([(exam.day - first).days for exam, _ in kept]),
        first_day=first,
        totals=np.array(totals),
        rating=np.array(ratings, int).reshape(-1, 5),
        mark=np.array(marks, int).reshape(-1, 3),
        marks=np.array(values, float),
        grade=np.array(grades, int).reshape(-1, 4),
        sheets=sum(len(sheets) for _, sheets in kept),
        left_out={code: number for code, number in left_out.items() if number},
    )


class _Cells:
    """What a sheet scores, as arrays (cells,): place of block and of criterion, weight, number of steps."""

    def __init__(self, practical: Practical) -> None:
        cells = practical.cells()
        self.blocks = tuple(dict.fromkeys(cell.block for cell in cells))
        used = {cell.criterion for cell in cells}
        self.criteria = tuple(one.id for one in practical.criteria if one.id in used)
        self.keys = [(cell.block, cell.criterion) for cell in cells]
        self.block = np.array([self.blocks.index(cell.block) for cell in cells])
        self.criterion = np.array([self.criteria.index(cell.criterion) for cell in cells])
        self.weight = np.array([float(cell.weight) for cell in cells])
        self.most = np.array([len(cell.scale.levels()) - 1 for cell in cells])
        self.step_of = [
            {level: int(cell.scale.share(level) * most) for level in cell.scale.levels()}
            for cell, most in zip(cells, self.most.tolist(), strict=True)
        ]

    def steps(self, sheet: Sheet) -> np.ndarray:
        """Steps above the worst level (cells,), nan where the sheet has no level."""
        levels = {(one.block, one.criterion): one.level for one in sheet.marks}
        found = [steps.get(levels.get(key)) for key, steps in zip(self.keys, self.step_of, strict=True)]
        return np.array([np.nan if one is None else one for one in found], float)

    def block_marks(self, share: np.ndarray) -> list[tuple[int, float]]:
        """Each block's mark in per cent; a block without any level has none."""
        whole = [(at, self._mean(np.where(self.block == at, share, np.nan))) for at in range(len(self.blocks))]
        return [(at, value) for at, value in whole if np.isfinite(value)]

    def total(self, shares: np.ndarray) -> float:
        """The total in per cent of the average of sheets (sheets, cells), as `assessments.practicals.scoring` has it."""
        given = np.isfinite(shares)
        number = given.sum(axis=0)
        mean = np.where(given, shares, 0).sum(axis=0) / np.maximum(number, 1)
        return self._mean(np.where(number > 0, mean, np.nan))

    def _mean(self, share: np.ndarray) -> float:
        seen = np.isfinite(share)
        weight = self.weight[seen].sum()
        return float(100 * self.weight[seen] @ share[seen] / weight) if weight else float("nan")


def block_weights(practical: Practical) -> dict[str, float]:
    """What each block counts in the whole, in per cent."""
    found: dict[str, float] = {}
    for cell in practical.cells():
        found[cell.block] = found.get(cell.block, 0.0) + float(cell.weight)
    return found


def effective_blocks(practical: Practical) -> float:
    """How many blocks of equal weight average out as much as these do: (sum w)^2 / sum w^2."""
    weights = list(block_weights(practical).values())
    return sum(weights) ** 2 / sum(one**2 for one in weights)
