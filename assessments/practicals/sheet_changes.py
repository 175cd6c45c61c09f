"""A sheet as its form has it, told in records: what is to be added to those there are so that both say the same."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import zip_longest

from assessments.practicals.sheet_records import NO_TIME, SheetRecord, mark_of, next_count, standing_records
from assessments.practicals.sheets import CriticalSighting, Manner, Mark, Sheet, SteppedIn, Tap
from assessments.practicals.specification import Practical

# The device of a record that came through the form; its id follows from its count, and no device makes such an id.
FORM = "form"
Standing = Mapping[str, SheetRecord]
# Kind, time and value of a record to be; a new item has no name yet.
Change = tuple[str, int, dict[str, str]]
GONE = {"gone": "yes"}


def changes(practical: Practical, records: Iterable[SheetRecord], sheet: Sheet) -> tuple[SheetRecord, ...]:
    """The further records that make `sheet` of what `records` make; none where they make it already."""
    known = tuple(records)
    standing = standing_records(known)
    rules = (_marks, _grades, _taps, _critical, _stepped, _note)
    found = (change for rule in rules for change in rule(practical, standing, sheet))
    return tuple(_made(count, *change) for count, change in enumerate(found, next_count(known)))


def _made(count: int, kind: str, at: int, value: dict[str, str]) -> SheetRecord:
    name = f"{FORM}-{count}"
    return SheetRecord(name, FORM, count, kind, at, value | ({"item": name} if value.get("item") == "" else {}))


def _marks(practical: Practical, standing: Standing, sheet: Sheet) -> Iterator[Change]:
    for cell in practical.cells():
        place = {"block": cell.block, "criterion": cell.criterion}
        old, new = mark_of(standing, **place), sheet.mark(**place) or Mark(**place)
        if _choice(old) != _choice(new):
            yield "mark", NO_TIME, place | {"choice": _choice(new)}
        if old.manner != new.manner:
            yield "manner", NO_TIME, place | {"manner": str(Manner(new.manner))}
        if old.reason != new.reason:
            yield "reason", NO_TIME, place | {"text": new.reason}


def _choice(mark: Mark) -> str:
    return str(mark.level) if mark.level is not None else str(mark.left_out or "")


def _grades(practical: Practical, standing: Standing, sheet: Sheet) -> Iterator[Change]:
    new = {one.block: str(one.grade) for one in sheet.grades}
    for block in dict.fromkeys(cell.block for cell in practical.cells()):
        old = standing.get(f"grade/{block}")
        if (old.value["grade"] if old else "") != new.get(block, ""):
            yield "grade", NO_TIME, {"block": block, "grade": new.get(block, "")}


def _taps(practical: Practical, standing: Standing, sheet: Sheet) -> Iterator[Change]:
    missing = [_tap_change(tap) for tap in sheet.taps]
    for old in (one for one in standing.values() if one.kind == "tap"):
        same = ("tap", old.at, dict(old.value) | {"item": ""})
        if same in missing:
            missing.remove(same)
        else:
            yield "tap", old.at, dict(old.value) | GONE
    yield from missing


def _tap_change(tap: Tap) -> Change:
    said = {"exercise": tap.exercise, "noticed": str(tap.noticed), "at_block": tap.block, "instead": tap.instead}
    return "tap", NO_TIME if tap.at is None else tap.at, {"item": "", **said, "gone": ""}


def _critical(practical: Practical, standing: Standing, sheet: Sheet) -> Iterator[Change]:
    new = {one.code: one for one in sheet.critical}
    old = {one.value["code"]: one for one in standing.values() if one.kind == "critical"}
    for code in dict.fromkeys((*new, *old)):
        change = (
            _critical_change(new[code]) if code in new else ("critical", old[code].at, dict(old[code].value) | GONE)
        )
        if code not in old or change != ("critical", old[code].at, dict(old[code].value)):
            yield change


def _critical_change(one: CriticalSighting) -> Change:
    return "critical", one.at, {"code": one.code, "why": one.why, "exercise": one.exercise, "gone": ""}


def _stepped(practical: Practical, standing: Standing, sheet: Sheet) -> Iterator[Change]:
    """By time: the first of the one with the first of the other, so that a word put right is no new item."""
    old = sorted(
        (one for one in standing.values() if one.kind == "stepped"), key=lambda one: (one.at < 0, one.at, one.id)
    )
    new = sorted(sheet.stepped_in, key=lambda one: (one.at < 0, one.at))
    for before, after in zip_longest(old, new):
        if after is None:
            yield "stepped", before.at, dict(before.value) | GONE
            continue
        change = _stepped_change(before.value["item"] if before else "", after)
        if before is None or change != ("stepped", before.at, dict(before.value)):
            yield change


def _stepped_change(item: str, one: SteppedIn) -> Change:
    went_on = "yes" if one.went_on else "no"
    return "stepped", one.at, {"item": item, "why": one.why, "went_on": went_on, "gone": ""}


def _note(practical: Practical, standing: Standing, sheet: Sheet) -> Iterator[Change]:
    old = standing.get("note")
    if (old.value["text"] if old else "") != sheet.note:
        yield "note", NO_TIME, {"text": sheet.note}
