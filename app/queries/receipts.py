"""Receipts as people read them: what a receipt or a root says, and whether it holds against the record today."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from app.queries.proof import NOT_WHOLE, OTHER_ROOT, SHORTER, audit
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.faults import fault_text
from app.wording.languages import Language
from app.wording.record import EVENTS, OTHER_EVENT
from assessments.records.receipt import Held, Receipt, Recorded, Root
from assessments.records.tree import root
from curriculum.faults import N_, Fault

NO_SCHOOL = N_("No school here has the record it is of.")
SIGNED_OF = N_("{what}, {start} to {end}")


@dataclass(frozen=True, slots=True)
class Checked:
    """`holds`, else `reasons`; `size` is how many events it is over; `rows` are what it says: label and text; `what` one sentence for each event."""

    holds: bool
    reasons: tuple[str, ...]
    rows: tuple[tuple[str, str], ...]
    what: tuple[str, ...]
    size: int


def checked(work: Work | None, school: str, held: Held, language: Language) -> Checked:
    """What is held, laid beside the record of its school; `work` is None where no school here has it."""
    top = held if isinstance(held, Root) else held.root
    faults = _faults(work, held, top)
    rows = [
        (language(N_("School")), school or top.school),
        (language(N_("Events it is over")), language.figure(top.size)),
        (language(N_("Root")), top.hash.hex()),
    ]
    events = [one.event for one in held.entries] if isinstance(held, Receipt) and held.is_whole else []
    reasons = tuple(fault_text(fault, language) for fault in faults)
    return Checked(
        not faults, reasons, tuple(rows), tuple(_sentence(one, events, language) for one in events), top.size
    )


def _faults(work: Work | None, held: Held, top: Root) -> tuple[Fault, ...]:
    """What can be seen without the whole record is looked at first: only a root that was once ours costs more."""
    if not isinstance(held, Root) and not held.is_whole:
        return (Fault("not-whole", NOT_WHOLE),)
    if work is None:
        return (Fault("no-school", NO_SCHOOL),)
    size = work.record.size()
    if top.size > size:
        return (Fault("shorter", SHORTER, {"size": size, "then": top.size}),)
    if root(work.record.node, top.size) != top.hash:
        return (Fault("other-root", OTHER_ROOT, {"then": top.size}),)
    return audit(work).against(held)


def _sentence(event: Recorded, events: list[Recorded], language: Language) -> str:
    bodies = [_body(one) for one in events]
    day = next((_day(body["day"], language) for body in bodies if "day" in body), "")
    kept = _body(event)
    if event.kind not in EVENTS:
        return language(OTHER_EVENT, kind=event.kind)
    shown = {"day": day, "kind": "", "module": "", "reason": "", "evidence": kept.get("evidence", "")}
    what = language(EVENTS[event.kind], **shown)
    if kept.get("start"):
        return language(SIGNED_OF, what=what, start=kept["start"], end=kept["end"])
    return what


def _day(text: str, language: Language) -> str:
    try:
        return day_text(date.fromisoformat(text), language.locale)
    except ValueError:
        return text


def _body(event: Recorded) -> Mapping[str, str]:
    try:
        body = json.loads(event.body)
    except ValueError:
        return {}
    return {name: value for name, value in body.items() if isinstance(value, str)} if isinstance(body, dict) else {}
