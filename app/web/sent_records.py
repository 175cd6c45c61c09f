"""Records of a score sheet as a device sends them, many in one form, and the answer: for each what became of it."""

import re
from collections.abc import Mapping

from app.use_cases.sheet_records import TakenRecord
from app.web.offline import problem_of, sent_items
from app.web.visit import Visit
from assessments.practicals.sheet_records import SheetRecord
from curriculum.faults import N_, Fault, RefusedError

NAMES = ("id", "device", "count", "kind", "at")
# What a device makes by chance (RFC 9562); the form's own records are told apart by it.
MADE_BY_CHANCE = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
WHOLE = re.compile(r"-?[0-9]{1,9}")
DAMAGED = N_("this is no record of a score sheet")


def sent_records(text: str) -> list[SheetRecord | TakenRecord]:
    """The records that were sent, or why one of them is none; refuses all of it if it is no list, or too long a one."""
    return [_record(item) for item in sent_items(text)]


def written_record(record: SheetRecord) -> dict[str, str]:
    """A record as a device sends it, all text."""
    own = {name: str(getattr(record, name)) for name in NAMES}
    return own | dict(record.value)


def answered_record(visit: Visit, exam_id: str, place: int, taken: TakenRecord) -> dict[str, object]:
    """What became of the record at this place of the list."""
    if taken.error is None:
        return {"id": taken.id, "status": 201 if taken.is_new else 200}
    return problem_of(visit, place, taken.id, f"/sheets/{exam_id}/records", taken.error, taken.faults)


def _record(item: Mapping[str, str]) -> SheetRecord | TakenRecord:
    id, device, count, kind, at = (item.get(name, "") for name in NAMES)
    fits = MADE_BY_CHANCE.fullmatch(id) and MADE_BY_CHANCE.fullmatch(device)
    if not fits or not WHOLE.fullmatch(count) or not WHOLE.fullmatch(at):
        faults = (Fault("damaged", DAMAGED, field="id"),)
        return TakenRecord(id, error=RefusedError(faults), faults=faults)
    value = {name: text for name, text in item.items() if name not in NAMES}
    return SheetRecord(id, device, int(count), kind, int(at), value)
