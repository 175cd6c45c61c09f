"""What an examiner taps, record by record, and the sheet that the records make.

A record is never changed: a later one takes the place of an earlier one at the same place of the sheet, and `undo` sets one
aside. The records of several devices, in any order and each any number of times, make the same sheet: they are put in the
order of logical clocks (L. Lamport, Time, clocks, and the ordering of events in a distributed system, Communications of the
ACM 21, 1978): a record's `count` is one more than any its device knew of, and between equals the device's name decides.
Cases by hand: `tests/assessments/practicals/sheet_records.json`.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

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
    in_order,
)
from assessments.practicals.specification import Practical

# By kind: the fields that name the place on the sheet, and those that say what stands there.
PLACES: Mapping[str, tuple[str, ...]] = {
    "mark": ("block", "criterion"),
    "manner": ("block", "criterion"),
    "reason": ("block", "criterion"),
    "grade": ("block",),
    "tap": ("item",),
    "critical": ("code",),
    "stepped": ("item",),
    "note": (),
    "clock": (),
    "undo": ("of",),
}
CONTENTS: Mapping[str, tuple[str, ...]] = {
    "mark": ("choice",),
    "manner": ("manner",),
    "reason": ("text",),
    "grade": ("grade",),
    "tap": ("exercise", "noticed", "at_block", "instead", "gone"),
    "critical": ("why", "exercise", "gone"),
    "stepped": ("why", "went_on", "gone"),
    "note": ("text",),
    "clock": ("act", "moment"),
    "undo": (),
}
NO_TIME = -1


@dataclass(frozen=True, slots=True)
class SheetRecord:
    """One thing an examiner did: `at` is the time it speaks of, in seconds since the start, -1 where nobody noted it.

    `value` holds all the fields of its kind, as text; `gone` is `yes` where what stood there is taken away.
    """

    id: str
    device: str
    count: int
    kind: str
    at: int
    value: Mapping[str, str]

    @property
    def order(self) -> tuple[int, str, str]:
        return self.count, self.device, self.id

    @property
    def place(self) -> str:
        """The place on the sheet, such as `mark/mat/A`."""
        return "/".join((self.kind, *(self.value[name] for name in PLACES[self.kind])))


def standing_records(records: Iterable[SheetRecord]) -> dict[str, SheetRecord]:
    """By place, the last record that was not undone, without what is gone. An undo reaches back only; undone, it undoes
    nothing."""
    undone: set[str] = set()
    found: dict[str, SheetRecord] = {}
    for one in sorted({one.id: one for one in records}.values(), key=lambda one: one.order, reverse=True):
        if one.id in undone:
            continue
        if one.kind == "undo":
            undone.add(one.value["of"])
        else:
            found.setdefault(one.place, one)
    return {place: one for place, one in found.items() if not one.value.get("gone")}


def next_count(records: Iterable[SheetRecord]) -> int:
    """The count of the next record of whoever knows these."""
    return max((one.count for one in records), default=0) + 1


def sheet_of(practical: Practical, records: Iterable[SheetRecord]) -> Sheet:
    """The sheet that the records make, without an exam and an examiner yet, in order."""
    standing = standing_records(records)
    taps, critical, stepped, grades = (_of(standing, kind) for kind in ("tap", "critical", "stepped", "grade"))
    note = standing.get("note")
    sheet = Sheet(
        "", "", practical.id, practical.edition,
        marks=tuple(_marks(standing)),
        taps=tuple(_tap(one) for one in taps),
        critical=tuple(_sighting(one) for one in critical),
        stepped_in=tuple(SteppedIn(one.at, one.value["why"], one.value["went_on"] != "no") for one in stepped),
        grades=tuple(Grade(one.value["block"], int(one.value["grade"])) for one in grades if one.value["grade"]),
        note=note.value["text"] if note else "",
    )  # fmt: skip
    return in_order(practical, sheet)


def mark_of(standing: Mapping[str, SheetRecord], block: str, criterion: str) -> Mark:
    """The mark at one place, with neither a level nor a reason where nothing stands there."""

    def text(kind: str, name: str) -> str:
        one = standing.get(f"{kind}/{block}/{criterion}")
        return one.value[name] if one else ""

    choice, left_out = text("mark", "choice"), None
    if choice in set(LeftOut):
        choice, left_out = "", LeftOut(choice)
    level = Fraction(choice) if choice else None
    return Mark(
        block, criterion, level, left_out, Manner(text("manner", "manner") or Manner.DONE), text("reason", "text")
    )


def _marks(standing: Mapping[str, SheetRecord]) -> Iterator[Mark]:
    places = {(one.value["block"], one.value["criterion"]) for one in standing.values() if "criterion" in one.value}
    for block, criterion in sorted(places):
        mark = mark_of(standing, block, criterion)
        if mark != Mark(block, criterion):
            yield mark


def _of(standing: Mapping[str, SheetRecord], kind: str) -> list[SheetRecord]:
    return [one for one in standing.values() if one.kind == kind]


def _tap(one: SheetRecord) -> Tap:
    at = None if one.at == NO_TIME else one.at
    value = one.value
    return Tap(value["exercise"], Noticed(value["noticed"]), at, value["at_block"], value["instead"])


def _sighting(one: SheetRecord) -> CriticalSighting:
    return CriticalSighting(one.value["code"], one.at, one.value["why"], one.value["exercise"])
