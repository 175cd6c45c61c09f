"""An edition of a practical as data: parts, criteria with their levels, floors, cut score and rules."""

from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from typing import Literal

from assessments.practicals.admission import Check
from assessments.practicals.appeal_rules import Appeals
from assessments.practicals.client import ClientRule
from curriculum.competencies.statements import Strand
from curriculum.faults import N_

PartKind = Literal["one-to-one", "group", "performance", "drawn", "sight-read", "oral", "written"]
PART_KINDS: tuple[PartKind, ...] = (
    "one-to-one",
    "group",
    "performance",
    "drawn",
    "sight-read",
    "oral",
    "written",
)
CutMethod = Literal[
    "fixed",
    "angoff",
    "borderline-group",
    "borderline-regression",
    "contrasting-groups",
    "hofstee",
    "beuk",
]
CUT_METHODS: tuple[CutMethod, ...] = (
    "fixed",
    "angoff",
    "borderline-group",
    "borderline-regression",
    "contrasting-groups",
    "hofstee",
    "beuk",
)
HUNDRED = Fraction(100)


@dataclass(frozen=True, slots=True)
class Scale:
    """The levels of a criterion, from `lowest` to `highest` by `step`; `best` says which end is good."""

    lowest: Fraction
    highest: Fraction
    step: Fraction = Fraction(1)
    best: Literal["highest", "lowest"] = "highest"

    def levels(self) -> tuple[Fraction, ...]:
        """Every level, lowest number first."""
        count = int((self.highest - self.lowest) / self.step) + 1
        return tuple(self.lowest + self.step * place for place in range(count))

    def share(self, level: Fraction) -> Fraction:
        """What a level counts, from 0 to 1: (level − lowest) / (highest − lowest), reversed where the scale is."""
        up = (Fraction(level) - self.lowest) / (self.highest - self.lowest)
        return up if self.best == "highest" else 1 - up


@dataclass(frozen=True, slots=True)
class Criterion:
    """One thing judged; `sentences` holds behaviour for every level; `floor` is in per cent; `strands` are those of
    the competency statements that it speaks for."""

    id: str
    title: str
    weight: Fraction
    scale: Scale
    sentences: tuple[tuple[Fraction, str], ...]
    watched: str = ""
    floor: Fraction | None = None
    strands: tuple[Strand, ...] = ()

    def sentence(self, level: Fraction) -> str:
        """The behaviour that a level stands for; empty between two levels."""
        return dict(self.sentences).get(Fraction(level), "")


@dataclass(frozen=True, slots=True)
class Block:
    """What is scored at once, a series or a whole part; `weight` is within its part, in per cent."""

    id: str
    title: str
    minutes: int
    weight: Fraction = HUNDRED


@dataclass(frozen=True, slots=True)
class ExerciseList:
    """What a candidate is asked to teach: how many tasks, drawn or the edition's, whose order, what notice.

    `notice_days` None means sealed until the start. `exercises` names the tasks where they are fixed.
    """

    drawn: bool
    number: int
    order: Literal["edition", "candidate"] = "edition"
    notice_days: int | None = None
    exercises: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a practical; `weight` and `floor` are in per cent, `criteria` are ids."""

    id: str
    title: str
    kind: PartKind
    weight: Fraction
    blocks: tuple[Block, ...]
    criteria: tuple[str, ...]
    floor: Fraction | None = None
    exercises: ExerciseList | None = None

    @property
    def minutes(self) -> int:
        return sum(block.minutes for block in self.blocks)


@dataclass(frozen=True, slots=True)
class CriterionGroup:
    """Criteria that must reach a floor together, such as everything about safety."""

    id: str
    title: str
    criteria: tuple[str, ...]
    floor: Fraction


@dataclass(frozen=True, slots=True)
class CriticalFault:
    """A fault that fails, whatever the score."""

    code: str
    sentence: str


@dataclass(frozen=True, slots=True)
class CutScore:
    """The mark to reach in per cent, the method, how it was set in words, and its standard error if known."""

    at: Fraction
    method: CutMethod = "fixed"
    how: str = ""
    set_on: date | None = None
    standard_error: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Band:
    """Too close to call: `standard_errors` times the season's error, else the fixed `marks`."""

    marks: Fraction = Fraction(3)
    standard_errors: Fraction = Fraction(1)


@dataclass(frozen=True, slots=True)
class Apart:
    """When examiners talk: totals apart by more than `total` marks, or one level by more than `levels` steps."""

    total: Fraction = Fraction(10)
    levels: int | None = None


@dataclass(frozen=True, slots=True)
class SecondMarkingSample:
    """What a further examiner also marks: fails, the band, a new examiner's first, and a random share (per cent)."""

    fails: bool = True
    inside_band: bool = True
    new_examiners: bool = True
    random: Fraction = Fraction(10)


@dataclass(frozen=True, slots=True)
class Resits:
    """What follows a referral or a fail: attempts in all, parts alone, when, and whether the mark is capped."""

    attempts: int = 2
    parts_alone: bool = True
    after_days: int = 0
    within_days: int | None = None
    capped: bool = False


@dataclass(frozen=True, slots=True)
class Calibration:
    """What gives an examiner a place on panels: so many described performances (0: none) scored within `months`.

    `distance` is the most that a mark may lie from the reference on average, in levels; `total` the most that the
    weighted whole may, in marks of 100. `founders` is how many score alone before they can set a reference together.
    """

    months: int = 12
    performances: int = 3
    distance: Fraction = Fraction(1, 2)
    total: Fraction = Fraction(10)
    founders: int = 3


@dataclass(frozen=True, slots=True)
class Practical:
    """An edition of a practical. Published editions never change; a new edition is a new value.

    Weights and floors are in per cent as exact fractions. `left_out` is the most that may be left
    out. `record_days` is how long after the decision a recording is kept, `months_apart` how long teaching, hosting or examining a candidate keeps one from deciding.
    """

    id: str
    title: str
    edition: str
    parts: tuple[Part, ...]
    criteria: tuple[Criterion, ...]
    cut: CutScore
    groups: tuple[CriterionGroup, ...] = ()
    critical_faults: tuple[CriticalFault, ...] = ()
    band: Band = field(default_factory=Band)
    apart: Apart = field(default_factory=Apart)
    left_out: Fraction = Fraction(20)
    sample: SecondMarkingSample = field(default_factory=SecondMarkingSample)
    resits: Resits = field(default_factory=Resits)
    appeals: Appeals = field(default_factory=Appeals)
    examiners: int = 2
    grades: tuple[str, ...] = (N_("fail"), N_("borderline"), N_("pass"), N_("very good"), N_("outstanding"))
    months_apart: int = 24
    recorded: bool = True
    record_days: int = 30
    admission: tuple[Check, ...] = ()
    client: ClientRule = field(default_factory=ClientRule)
    without_record: Literal["third-examiner", "fresh-exam"] = "third-examiner"
    adjusted_scores: bool = False
    calibration: Calibration = field(default_factory=Calibration)

    @property
    def minutes(self) -> int:
        """Minutes of all blocks, without the quiet time between them."""
        return sum(part.minutes for part in self.parts)

    def criterion(self, id: str) -> Criterion:
        """The criterion of that id; KeyError when there is none."""
        return {one.id: one for one in self.criteria}[id]

    def cells(self) -> tuple["Cell", ...]:
        """Everything that a sheet must score or leave out with a reason, with its weight in the total."""
        return tuple(cell for part in self.parts for cell in self._cells_of(part))

    def _cells_of(self, part: Part) -> tuple["Cell", ...]:
        judged = [self.criterion(id) for id in part.criteria]
        whole = sum(block.weight for block in part.blocks) * sum(one.weight for one in judged)
        return tuple(
            Cell(
                part.id,
                block.id,
                one.id,
                one.scale,
                part.weight * block.weight * one.weight / whole,
            )
            for block in part.blocks
            for one in judged
        )


@dataclass(frozen=True, slots=True)
class Cell:
    """One criterion on one block; `weight` is its part of the whole practical, in per cent."""

    part: str
    block: str
    criterion: str
    scale: Scale
    weight: Fraction
