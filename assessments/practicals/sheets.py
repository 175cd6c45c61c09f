"""One examiner's record of an exam, from first tap to sent sheet."""

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import Literal

from assessments.practicals.specification import Practical
from curriculum.faults import N_, Fault, RefusedError


class LeftOut(StrEnum):
    """Why a criterion has no level: its weight leaves numerator and denominator."""

    NOT_SEEN = "not-seen"
    NOT_REACHED = "not-reached"
    DECLINED = "declined"


class Manner(StrEnum):
    """How it came to a level; `not done` and `after a prompt` are scored by the criterion's own sentences."""

    DONE = "done"
    NOT_DONE = "not-done"
    AFTER_PROMPT = "after-prompt"


class Noticed(StrEnum):
    """What is tapped for an exercise, only where it is noteworthy; declined with good reason counts as done right."""

    FAULT_MISSED = "fault-missed"
    FAULT_MENDED = "fault-mended"
    PROMPTED = "prompted"
    OUT_OF_ORDER = "out-of-order"
    LEFT_OUT = "left-out"
    SWAPPED = "swapped"
    DECLINED = "declined"


class SheetState(StrEnum):
    ON_DEVICE = "on-device"
    SENT = "sent"
    REPLACED = "replaced"
    VOID = "void"


@dataclass(frozen=True, slots=True)
class Mark:
    """A level, or why there is none, for one criterion on one block.

    Exactly one of `level` and `left_out` is set; `declined` needs a reason.
    """

    block: str
    criterion: str
    level: Fraction | None = None
    left_out: LeftOut | None = None
    manner: Manner = Manner.DONE
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Tap:
    """Something noteworthy on one exercise; `instead` names the swapped-in one.

    `at` is seconds since the start, None where nobody noted the time.
    """

    exercise: str
    noticed: Noticed
    at: int | None = None
    block: str = ""
    instead: str = ""


@dataclass(frozen=True, slots=True)
class CriticalSighting:
    """A critical fault as one examiner saw it, `at` seconds since the start."""

    code: str
    at: int
    why: str
    exercise: str = ""


@dataclass(frozen=True, slots=True)
class SteppedIn:
    """The examiner stepped in for safety: when, why, and whether the exam went on."""

    at: int
    why: str
    went_on: bool


@dataclass(frozen=True, slots=True)
class Grade:
    """The global grade of a block: a place in the practical's `grades`, counted from 0."""

    block: str
    grade: int


@dataclass(frozen=True, slots=True)
class Sheet:
    """One examiner's record of one exam; sent sheets never change, a correction is a new version.

    `after_talking` says that the examiner kept or changed this sheet when the two were apart;
    `reason` is why a version after the first was made, or why the sheet is void; `from_paper` names who typed it in, where
    it was written on paper.
    """

    exam: str
    examiner: str
    practical: str
    edition: str
    version: int = 1
    state: SheetState = SheetState.ON_DEVICE
    marks: tuple[Mark, ...] = ()
    taps: tuple[Tap, ...] = ()
    critical: tuple[CriticalSighting, ...] = ()
    stepped_in: tuple[SteppedIn, ...] = ()
    grades: tuple[Grade, ...] = ()
    note: str = ""
    second_marking: bool = False
    after_talking: Literal["", "kept", "changed"] = ""
    reason: str = ""
    from_paper: str = ""

    def mark(self, block: str, criterion: str) -> Mark | None:
        """The mark at one place, or None."""
        return next(
            (one for one in self.marks if (one.block, one.criterion) == (block, criterion)),
            None,
        )

    def critical_codes(self) -> frozenset[str]:
        return frozenset(one.code for one in self.critical)


def in_order(practical: Practical, sheet: Sheet) -> Sheet:
    """The same sheet with marks, grades and critical faults in the practical's order, and the others in that of time."""
    cells = {(cell.block, cell.criterion): place for place, cell in enumerate(practical.cells())}
    blocks = {block: place for place, block in enumerate(dict.fromkeys(block for block, _ in cells))}
    codes = {one.code: place for place, one in enumerate(practical.critical_faults)}
    return replace(
        sheet,
        marks=tuple(sorted(sheet.marks, key=lambda one: cells.get((one.block, one.criterion), len(cells)))),
        taps=tuple(sorted(sheet.taps, key=_tap_order)),
        critical=tuple(sorted(sheet.critical, key=lambda one: codes.get(one.code, len(codes)))),
        stepped_in=tuple(sorted(sheet.stepped_in, key=lambda one: (one.at < 0, one.at, one.why, one.went_on))),
        grades=tuple(sorted(sheet.grades, key=lambda one: blocks.get(one.block, len(blocks)))),
    )


def _tap_order(tap: Tap) -> tuple:
    return tap.at is None, tap.at or 0, tap.exercise, tap.noticed, tap.block, tap.instead


def put_mark(sheet: Sheet, mark: Mark) -> Sheet:
    """The sheet with this mark in place of an earlier one; refused once it is sent."""
    _refuse_unless_on_device(sheet)
    others = tuple(one for one in sheet.marks if (one.block, one.criterion) != (mark.block, mark.criterion))
    return replace(sheet, marks=(*others, mark))


def leave_out_block(sheet: Sheet, practical: Practical, block: str, why: LeftOut, reason: str = "") -> Sheet:
    """The sheet with a whole block left out."""
    for cell in practical.cells():
        if cell.block == block:
            sheet = put_mark(sheet, Mark(block, cell.criterion, left_out=why, reason=reason))
    return sheet


def correct(sheet: Sheet, reason: str, after_talking: Literal["", "kept", "changed"] = "") -> tuple[Sheet, Sheet]:
    """The sent sheet as replaced, and its next version on the device; a reason is required."""
    if sheet.state is not SheetState.SENT:
        raise RefusedError([_state_fault("not-sent", N_("only a sent sheet gets a new version"))])
    _require(reason)
    fresh = replace(
        sheet,
        version=sheet.version + 1,
        state=SheetState.ON_DEVICE,
        reason=reason,
        after_talking=after_talking,
    )
    return replace(sheet, state=SheetState.REPLACED), fresh


def make_void(sheet: Sheet, reason: str) -> Sheet:
    """The sheet set aside for good, with a reason."""
    _require(reason)
    return replace(sheet, state=SheetState.VOID, reason=reason)


def standing(sheets: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    """The sheets that count: sent, the newest version of each examiner, by examiner's name."""
    newest: dict[str, Sheet] = {}
    for sheet in sorted(sheets, key=lambda one: one.version):
        if sheet.state is SheetState.SENT:
            newest[sheet.examiner] = sheet
    return tuple(newest[name] for name in sorted(newest))


def _require(reason: str) -> None:
    if not reason.strip():
        raise RefusedError([Fault("no-reason", N_("needs a reason"), field="reason")])


def _refuse_unless_on_device(sheet: Sheet) -> None:
    if sheet.state is not SheetState.ON_DEVICE:
        raise RefusedError(
            [
                _state_fault(
                    "sheet-closed",
                    N_("a sent sheet does not change; make a new version"),
                )
            ]
        )


def _state_fault(code: str, sentence: str) -> Fault:
    return Fault(code, sentence, field="state")
