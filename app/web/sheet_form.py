"""The score sheet's form: marks and texts as typed, always showable again, and turned into a sheet or refused."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from app.wording.practicals import elapsed
from assessments.practicals.sheet_checks import check_sheet
from assessments.practicals.sheets import (
    CriticalSighting,
    Grade,
    LeftOut,
    Manner,
    Mark,
    Noticed,
    Sheet,
    SteppedIn,
    Tap,
)
from assessments.practicals.specification import Cell, Practical
from curriculum.faults import N_, Fault

# So many times of stepping in are offered; a sheet that holds more shows them all, and one to add.
STEPS_OFFERED, MOST_STEPS = 3, 40
LONGEST, LONGEST_NOTE = 400, 4000
# Longer than any practical; a time beyond it is a slip of the finger.
LATEST = 12 * 60 * 60
NOT_ON_OFFER = N_("choose one of what is offered")
TIME = N_("minutes since the start, such as 12 or 12:30")


@dataclass(frozen=True, slots=True)
class SheetForm:
    """A sheet as typed: texts by field name, such as `marks.mat.A`; several where a field takes several."""

    fields: Mapping[str, tuple[str, ...]]

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "SheetForm":
        """The form as it was sent."""
        return cls({name: tuple(text.strip() for text in texts) for name, texts in form.items()})

    @classmethod
    def of(cls, sheet: Sheet) -> "SheetForm":
        """The form that shows a sheet."""
        fields = {}
        for name, text in _fields_of(sheet):
            fields[name] = (*fields.get(name, ()), text)
        return cls(fields)

    def one(self, name: str) -> str:
        """What was typed in a field; empty if nothing was."""
        return self.fields.get(name, ("",))[0]

    def all(self, name: str) -> tuple[str, ...]:
        """Everything ticked under a name."""
        return self.fields.get(name, ())

    def steps(self) -> int:
        """How many times of stepping in the form has room for: all that are there, and one more."""
        found = (re.fullmatch(r"stepped-(?:at|why|on)\.(\d{1,2})", name, re.ASCII) for name in self.fields)
        used = [int(one[1]) for one in found if one and self._step_is_used(int(one[1]))]
        return min(MOST_STEPS, max([STEPS_OFFERED, *(place + 2 for place in used)]))

    def sheet(
        self, practical: Practical, exercises: Sequence[str], before: Sheet | None = None
    ) -> tuple[Sheet, tuple[Fault, ...]]:
        """The sheet that was typed, without an exam and an examiner yet, and what of it can't be read.

        What the form can't show of the taps `before` (times, blocks, repeats, exercises it does not list) stays.
        """
        faults: list[Fault] = []
        blocks = tuple(dict.fromkeys(cell.block for cell in practical.cells()))
        sheet = Sheet(
            "", "", practical.id, practical.edition,
            marks=tuple(mark for cell in practical.cells() for mark in self._mark(cell, faults)),
            taps=tuple(self._all_taps(exercises, before.taps if before else (), faults)),
            critical=tuple(one for fault in practical.critical_faults for one in self._critical(fault.code, faults)),
            stepped_in=tuple(one for place in range(self.steps()) for one in self._stepped_in(place, faults)),
            grades=tuple(grade for block in blocks for grade in self._grade(block, len(practical.grades), faults)),
            note=self._text("note", faults, LONGEST_NOTE),
        )  # fmt: skip
        return sheet, tuple(faults)

    def to_send(
        self, practical: Practical, exercises: Sequence[str], before: Sheet | None = None
    ) -> tuple[Sheet, tuple[Fault, ...]]:
        """The same, with every gap and everything else that keeps it from being sent, at its field."""
        sheet, faults = self.sheet(practical, exercises, before)
        known = {fault.field for fault in faults}
        further = tuple(self.placed(fault, sheet) for fault in check_sheet(practical, sheet))
        return sheet, faults + tuple(fault for fault in further if fault.field not in known)

    def placed(self, fault: Fault, sheet: Sheet) -> Fault:
        """The fault of a sheet at the field of the form."""
        found = re.fullmatch(r"(critical|stepped_in|taps)\[(\d+)\]", fault.field)
        if not found:
            return fault
        kind, place = found[1], int(found[2])
        what = "at" if fault.code == "no-time" else "why"
        if kind == "critical":
            return replace(fault, field=f"critical-{what}.{sheet.critical[place].code}")
        if kind == "taps":
            return replace(fault, field=f"instead.{sheet.taps[place].exercise}")
        used = [one for one in range(self.steps()) if self._step_is_used(one)]
        return replace(fault, field=f"stepped-{what}.{used[place]}")

    def _mark(self, cell: Cell, faults: list[Fault]) -> Iterator[Mark]:
        place = f"{cell.block}.{cell.criterion}"
        chosen, manner = self.one(f"marks.{place}"), self.one(f"manner.{place}") or Manner.DONE
        reason = self._text(f"reason.{place}", faults)
        levels = {str(level): level for level in cell.scale.levels()}
        if chosen and chosen not in levels and chosen not in set(LeftOut):
            faults.append(Fault("not-on-offer", NOT_ON_OFFER, field=f"marks.{place}"))
        elif manner not in set(Manner):
            faults.append(Fault("not-on-offer", NOT_ON_OFFER, field=f"manner.{place}"))
        elif chosen or reason or manner != Manner.DONE:
            level, left_out = levels.get(chosen), LeftOut(chosen) if chosen in set(LeftOut) else None
            yield Mark(cell.block, cell.criterion, level, left_out, Manner(manner), reason)

    def _grade(self, block: str, number: int, faults: list[Fault]) -> Iterator[Grade]:
        chosen = self.one(f"grades.{block}")
        if chosen in {str(place) for place in range(number)}:
            yield Grade(block, int(chosen))
        elif chosen:
            faults.append(Fault("not-on-offer", NOT_ON_OFFER, field=f"grades.{block}"))

    def _all_taps(self, exercises: Sequence[str], before: Sequence[Tap], faults: list[Fault]) -> Iterator[Tap]:
        for exercise in exercises:
            own = tuple(tap for tap in before if tap.exercise == exercise)
            yield from self._taps(exercise, own, faults)
        yield from (tap for tap in before if tap.exercise not in exercises)

    def _taps(self, exercise: str, before: Sequence[Tap], faults: list[Fault]) -> Iterator[Tap]:
        instead = self._text(f"instead.{exercise}", faults)
        ticked = self.all(f"noticed.{exercise}")
        if set(ticked) - set(Noticed):
            faults.append(Fault("not-on-offer", NOT_ON_OFFER, field=f"noticed.{exercise}"))
        if instead and Noticed.SWAPPED not in ticked:
            sentence = N_("tick “swapped”, or empty what was taught instead")
            faults.append(Fault("not-ticked", sentence, field=f"instead.{exercise}"))
        for noticed in Noticed:
            if noticed in ticked:
                first, *others = [tap for tap in before if tap.noticed is noticed] or [Tap(exercise, noticed)]
                yield replace(first, instead=instead) if noticed is Noticed.SWAPPED else first
                yield from others

    def _critical(self, code: str, faults: list[Fault]) -> Iterator[CriticalSighting]:
        at, why = self._time(f"critical-at.{code}", faults), self._text(f"critical-why.{code}", faults)
        if self.one(f"critical.{code}"):
            yield CriticalSighting(code, at, why)
        elif why or self.one(f"critical-at.{code}"):
            faults.append(Fault("not-ticked", N_("tick it if you saw it, or empty this"), field=f"critical.{code}"))

    def _stepped_in(self, place: int, faults: list[Fault]) -> Iterator[SteppedIn]:
        at, why = self._time(f"stepped-at.{place}", faults), self._text(f"stepped-why.{place}", faults)
        if self._step_is_used(place):
            yield SteppedIn(at, why, self.one(f"stepped-on.{place}") != "no")

    def _step_is_used(self, place: int) -> bool:
        texts = (self.one(f"stepped-at.{place}"), self.one(f"stepped-why.{place}"))
        return any(texts) or self.one(f"stepped-on.{place}") == "no"

    def _text(self, name: str, faults: list[Fault], most: int = LONGEST) -> str:
        text = self.one(name)
        if len(text) > most:
            faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": most}, field=name))
        return text

    def _time(self, name: str, faults: list[Fault]) -> int:
        """Seconds since the start; -1 where nothing is typed yet."""
        text = self.one(name)
        found = re.fullmatch(r"(\d{1,3})(?::([0-5]\d))?", text, re.ASCII)
        seconds = int(found[1]) * 60 + int(found[2] or 0) if found else -1
        if text and not 0 <= seconds <= LATEST:
            faults.append(Fault("unreadable", TIME, field=name))
        return seconds


def _fields_of(sheet: Sheet) -> Iterator[tuple[str, str]]:
    for mark in sheet.marks:
        place = f"{mark.block}.{mark.criterion}"
        yield f"marks.{place}", _chosen(mark.level, mark.left_out)
        yield f"manner.{place}", mark.manner
        yield f"reason.{place}", mark.reason
    for grade in sheet.grades:
        yield f"grades.{grade.block}", str(grade.grade)
    for tap in sheet.taps:
        yield f"noticed.{tap.exercise}", tap.noticed
        if tap.noticed is Noticed.SWAPPED:
            yield f"instead.{tap.exercise}", tap.instead
    for one in sheet.critical:
        yield f"critical.{one.code}", "seen"
        yield f"critical-at.{one.code}", _time_text(one.at)
        yield f"critical-why.{one.code}", one.why
    for place, step in enumerate(sheet.stepped_in):
        yield f"stepped-at.{place}", _time_text(step.at)
        yield f"stepped-why.{place}", step.why
        yield f"stepped-on.{place}", "yes" if step.went_on else "no"
    yield "note", sheet.note


def _chosen(level: Fraction | None, left_out: LeftOut | None) -> str:
    return str(level) if level is not None else str(left_out or "")


def _time_text(at: int) -> str:
    return elapsed(at) if at >= 0 else ""
