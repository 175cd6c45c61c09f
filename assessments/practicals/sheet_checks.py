"""What a sheet must hold before it can be sent: one rule a function, each yields faults."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from assessments.practicals.sheets import LeftOut, Noticed, Sheet, SheetState
from assessments.practicals.specification import Practical
from curriculum.faults import N_, Fault, RefusedError


def check_sheet(practical: Practical, sheet: Sheet) -> tuple[Fault, ...]:
    """Every unexplained gap and everything that does not fit the practical; empty when it can be sent."""
    return tuple(fault for rule in RULES for fault in rule(practical, sheet))


def send(practical: Practical, sheet: Sheet) -> Sheet:
    """The sheet as sent; raises `RefusedError` with every fault."""
    faults = check_sheet(practical, sheet)
    if sheet.state is not SheetState.ON_DEVICE:
        faults += (
            Fault(
                "sheet-closed",
                N_("this sheet is no longer on the device"),
                field="state",
            ),
        )
    if faults:
        raise RefusedError(faults)
    return replace(sheet, state=SheetState.SENT)


def belongs_to_practical(practical: Practical, sheet: Sheet) -> Iterator[Fault]:
    """The sheet was made for this edition."""
    if (sheet.practical, sheet.edition) != (practical.id, practical.edition):
        sentence = N_("was made for {practical}, edition {edition}")
        values = {"practical": sheet.practical, "edition": sheet.edition}
        yield Fault("other-edition", sentence, values, field="edition")


def every_cell_is_marked(practical: Practical, sheet: Sheet) -> Iterator[Fault]:
    """Each criterion on each block has a level or a reason for having none."""
    cells = {(cell.block, cell.criterion) for cell in practical.cells()}
    places = Counter((mark.block, mark.criterion) for mark in sheet.marks)
    for cell in practical.cells():
        if not places[cell.block, cell.criterion]:
            yield _at(
                cell.block,
                cell.criterion,
                "gap",
                N_("has neither a level nor a reason for having none"),
            )
    for (block, criterion), count in places.items():
        if (block, criterion) not in cells:
            yield _at(block, criterion, "no-such-cell", N_("is not judged in this practical"))
        elif count > 1:
            yield _at(block, criterion, "marked-twice", N_("is marked more than once"))


def marks_fit_the_scale(practical: Practical, sheet: Sheet) -> Iterator[Fault]:
    """A level is one of the scale's; a level and a reason to leave out exclude each other."""
    scales = {(cell.block, cell.criterion): cell.scale for cell in practical.cells()}
    for mark in sheet.marks:
        scale = scales.get((mark.block, mark.criterion))
        place = (mark.block, mark.criterion)
        if (mark.level is None) == (mark.left_out is None) and scale:
            yield _at(
                *place,
                "level-or-reason",
                N_("needs either a level or a reason for having none"),
            )
        elif mark.level is not None and scale and mark.level not in scale.levels():
            yield _at(
                *place,
                "no-such-level",
                N_("{level} is not a level of the scale"),
                level=float(mark.level),
            )
        elif mark.left_out is LeftOut.DECLINED and not mark.reason.strip():
            yield _at(*place, "no-reason", N_("a part declined needs its good reason"))


def every_block_is_graded(practical: Practical, sheet: Sheet) -> Iterator[Fault]:
    """A block with at least one level has one global grade, and every grade is one of the practical's."""
    blocks = {cell.block for cell in practical.cells()}
    scored = {mark.block for mark in sheet.marks if mark.level is not None}
    places = Counter(one.block for one in sheet.grades)
    for block in sorted((scored & blocks) - places.keys()):
        yield _grade_fault(block, "no-grade", N_("needs a global grade"))
    for one in sheet.grades:
        if one.block not in blocks:
            yield _grade_fault(one.block, "no-such-block", N_("is not a block of this practical"))
        elif not 0 <= one.grade < len(practical.grades):
            most = len(practical.grades) - 1
            yield _grade_fault(
                one.block,
                "no-such-grade",
                N_("a grade lies from 0 to {most}"),
                most=most,
            )
    for block in (block for block, count in places.items() if count > 1):
        yield _grade_fault(block, "graded-twice", N_("is graded more than once"))


def critical_faults_are_explained(practical: Practical, sheet: Sheet) -> Iterator[Fault]:
    """A critical fault is one of the practical's, with its time and why."""
    known = {one.code for one in practical.critical_faults}
    for place, one in enumerate(sheet.critical):
        field = f"critical[{place}]"
        if one.code not in known:
            yield Fault(
                "no-such-critical-fault",
                N_("{code} is not a critical fault here"),
                {"code": one.code},
                field,
            )
        yield from _time_and_reason(field, one.at, one.why)


def stepping_in_is_explained(practical: Practical, sheet: Sheet) -> Iterator[Fault]:
    """Stepping in has its time and why."""
    for place, one in enumerate(sheet.stepped_in):
        yield from _time_and_reason(f"stepped_in[{place}]", one.at, one.why)


def taps_make_sense(practical: Practical, sheet: Sheet) -> Iterator[Fault]:
    """A tap names its exercise, and a time that can be; a swap names what was taught instead."""
    for place, tap in enumerate(sheet.taps):
        if not tap.exercise or (tap.at is not None and tap.at < 0):
            yield Fault("bad-tap", N_("needs an exercise, and no time before the start"), field=f"taps[{place}]")
        if tap.noticed is Noticed.SWAPPED and not tap.instead:
            yield Fault(
                "no-swap",
                N_("a swap names what was taught instead"),
                field=f"taps[{place}]",
            )


def later_versions_have_a_reason(practical: Practical, sheet: Sheet) -> Iterator[Fault]:
    """Every version after the first says why it was made."""
    if (sheet.version > 1 or sheet.after_talking) and not sheet.reason.strip():
        yield Fault("no-reason", N_("a new version needs a reason"), field="reason")


RULES = (
    belongs_to_practical,
    every_cell_is_marked,
    marks_fit_the_scale,
    every_block_is_graded,
    critical_faults_are_explained,
    stepping_in_is_explained,
    taps_make_sense,
    later_versions_have_a_reason,
)


def _at(block: str, criterion: str, code: str, sentence: str, **values: object) -> Fault:
    return Fault(code, sentence, values, field=f"marks.{block}.{criterion}")


def _grade_fault(block: str, code: str, sentence: str, **values: object) -> Fault:
    return Fault(code, sentence, values, field=f"grades.{block}")


def _time_and_reason(field: str, at: int, why: str) -> Iterator[Fault]:
    if at < 0:
        yield Fault("no-time", N_("needs the time since the start"), field=field)
    if not why.strip():
        yield Fault("no-reason", N_("needs what was seen"), field=field)
