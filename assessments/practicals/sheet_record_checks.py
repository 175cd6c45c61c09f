"""What keeps a record off a sheet: each rule yields faults; empty when it can be taken."""

from collections.abc import Iterator

from assessments.practicals.sheet_records import CONTENTS, NO_TIME, PLACES, SheetRecord
from assessments.practicals.sheets import LeftOut, Manner, Noticed
from assessments.practicals.specification import Practical
from curriculum.faults import N_, Fault

NAME_LONGEST, TEXT_LONGEST, NOTE_LONGEST = 64, 400, 4000
# Longer than any practical, in seconds.
LATEST = 12 * 60 * 60
# More than any exam could hold by hand.
MOST_COUNT = 1_000_000
NOT_ON_OFFER = N_("choose one of what is offered")
ACTS = ("go", "hold")


def check_record(practical: Practical, record: SheetRecord) -> tuple[Fault, ...]:
    """Everything that does not fit the practical."""
    names = (*PLACES.get(record.kind, ()), *CONTENTS.get(record.kind, ()))
    if record.kind not in PLACES or set(names) != set(record.value):
        return (Fault("no-such-record", N_("this is no record of a score sheet"), field="kind"),)
    return tuple(fault for rule in RULES for fault in rule(practical, record))


def time_can_be(practical: Practical, record: SheetRecord) -> Iterator[Fault]:
    if not NO_TIME <= record.at <= LATEST:
        yield Fault("no-such-time", N_("lies outside any exam"), field="at")
    if not 1 <= record.count <= MOST_COUNT:
        yield Fault("no-such-count", N_("is no count of a device"), field="count")


def texts_have_room(practical: Practical, record: SheetRecord) -> Iterator[Fault]:
    texts = {"note": NOTE_LONGEST, "reason": TEXT_LONGEST}
    for name, text in record.value.items():
        most = texts.get(record.kind, NAME_LONGEST) if name == "text" else NAME_LONGEST
        most = TEXT_LONGEST if name in ("why", "instead") else most
        if len(text) > most:
            yield Fault("too-long", N_("keep this under {most} letters"), {"most": most}, name)


def place_is_judged(practical: Practical, record: SheetRecord) -> Iterator[Fault]:
    cells = {(cell.block, cell.criterion): cell.scale for cell in practical.cells()}
    block, value = record.value.get("block", ""), record.value
    if "criterion" in PLACES[record.kind] and (block, value["criterion"]) not in cells:
        yield Fault("no-such-cell", N_("is not judged in this practical"), field="criterion")
    elif record.kind == "grade" and block not in {one for one, _ in cells}:
        yield Fault("no-such-block", N_("is not a block of this practical"), field="block")
    elif record.kind == "mark" and value["choice"] not in ("", *LeftOut):
        if value["choice"] not in {str(level) for level in cells[block, value["criterion"]].levels()}:
            yield Fault("not-on-offer", NOT_ON_OFFER, field="choice")


def content_is_on_offer(practical: Practical, record: SheetRecord) -> Iterator[Fault]:
    codes = {one.code for one in practical.critical_faults}
    offered = {
        "manner": {"manner": (*Manner,)},
        "grade": {"grade": ("", *(str(place) for place in range(len(practical.grades))))},
        "tap": {"noticed": (*Noticed,), "gone": ("", "yes")},
        "critical": {"code": codes, "gone": ("", "yes")},
        "stepped": {"went_on": ("yes", "no"), "gone": ("", "yes")},
        "clock": {"act": ACTS},
    }
    for name, choices in offered.get(record.kind, {}).items():
        if record.value[name] not in choices:
            yield Fault("not-on-offer", NOT_ON_OFFER, field=name)


def names_are_there(practical: Practical, record: SheetRecord) -> Iterator[Fault]:
    for name in {"tap": ("item", "exercise"), "stepped": ("item",), "undo": ("of",)}.get(record.kind, ()):
        if not record.value[name]:
            yield Fault("no-name", N_("is missing"), field=name)


RULES = (time_can_be, texts_have_room, place_is_judged, content_is_on_offer, names_are_there)
