"""What the school puts on a trainee's record: documents it has seen, modules attended, leave and extensions."""

import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from app.queries.registers import rooms_of
from app.queries.standing import requirements_of
from app.storage.enrolments import Enrolment, ShownDocument, TimeGranted
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from assessments.hours.attendance import attendance, completion_refusals
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

LONGEST_KIND = 60
LONGEST_REASON = 1_000
GRANTED = ("extension", "leave")


@dataclass(frozen=True, slots=True)
class ShowDocument:
    """A document as it was shown; it stands in the place of an earlier one of its kind."""

    kind: str
    valid_from: date | None
    valid_to: date | None


@dataclass(frozen=True, slots=True)
class GrantTime:
    """An extension, which the requirement set measures in months, or a leave from a day to a day."""

    kind: str
    first_day: date | None
    last_day: date | None
    reason: str


def record_document(
    store: Store, asker: Asker, enrolment_id: str, request: ShowDocument, unread: Iterable[Fault] = ()
) -> None:
    """Put a document on record; one of the same kind that stood until now stays as history.

    `unread` is what of the form could not be read: it is refused with the rest.
    """
    with store.writing(asker.school.id) as work:
        enrolment = _enrolment(work, enrolment_id)
        faults = _together(unread, [*_name_faults(request.kind, "kind"), *_span_faults(asker, request)])
        if faults:
            raise RefusedError(faults)
        replaced = [one for one in work.enrolments.documents(enrolment.id) if one.kind == request.kind]
        for one in replaced:
            work.enrolments.withdraw_document(one.id, asker.now)
        id, span = secrets.token_hex(16), (request.valid_from, request.valid_to)
        shown = ShownDocument(id, request.kind, *span, asker.person_id, asker.now)
        work.enrolments.add_document(enrolment.id, shown)
        body = {"document": id, "kind": request.kind, "from": _iso(span[0]), "to": _iso(span[1])}
        body |= {"replaces": [one.id for one in replaced]}
        work.record.append("document-seen", enrolment.id, asker.person_id, asker.now, body)
        work.commit()


def withdraw_document(store: Store, asker: Asker, enrolment_id: str, document_id: str, reason: str) -> None:
    """Let a document no longer stand, with a reason; that it was shown stays on record."""
    with store.writing(asker.school.id) as work:
        found = work.enrolments.document(document_id)
        if found is None or found[0] != enrolment_id:
            raise NotFoundError
        if found[2] is not None:
            raise ConflictError(N_("This document does not stand any more."))
        faults = _reason_faults(reason, N_("say why it no longer stands"), "document-reason")
        if faults:
            raise RefusedError(faults)
        work.enrolments.withdraw_document(document_id, asker.now)
        body = {"document": document_id, "kind": found[1].kind, "reason": reason.strip()}
        work.record.append("document-withdrawn", enrolment_id, asker.person_id, asker.now, body)
        work.commit()


def record_module(  # noqa: PLR0913 - one form
    store: Store, asker: Asker, enrolment_id: str, module: str, done_on: date | None, unread: Iterable[Fault] = ()
) -> None:
    """Put an attended module on record, by the day it was completed."""
    with store.writing(asker.school.id) as work:
        enrolment = _enrolment(work, enrolment_id)
        faults = _together(unread, [*_name_faults(module, "module"), *_past_faults(asker, enrolment, done_on)])
        if module in work.enrolments.modules_done(enrolment.id):
            faults.append(Fault("module-done", N_("this module is on record already"), field="module"))
        rules = requirements_of(work.editions.by_id(enrolment.requirements_id)).modules
        faults += completion_refusals(rules, module, attendance(rooms_of(work, [module]), enrolment.id, module))
        if faults:
            raise RefusedError(faults)
        work.enrolments.add_module(enrolment.id, module, done_on, asker.person_id)
        body = {"module": module, "day": done_on.isoformat()}
        work.record.append("module-completed", enrolment.id, asker.person_id, asker.now, body)
        work.commit()


def take_module_back(store: Store, asker: Asker, enrolment_id: str, module: str, reason: str) -> None:
    """Take a module that was recorded by mistake off again, with a reason; both stay in the history."""
    with store.writing(asker.school.id) as work:
        enrolment = _enrolment(work, enrolment_id)
        if module not in work.enrolments.modules_done(enrolment.id):
            raise ConflictError(N_("This module is not on record any more."))
        faults = _reason_faults(reason, N_("say why it is taken back"), "module-reason")
        if faults:
            raise RefusedError(faults)
        work.enrolments.withdraw_module(enrolment.id, module, asker.now)
        body = {"module": module, "reason": reason.strip()}
        work.record.append("module-taken-back", enrolment.id, asker.person_id, asker.now, body)
        work.commit()


def grant_time(store: Store, asker: Asker, enrolment_id: str, request: GrantTime, unread: Iterable[Fault] = ()) -> None:
    """Grant an extension, which counts from today, or a leave; both stay."""
    with store.writing(asker.school.id) as work:
        put_time(work, asker, _enrolment(work, enrolment_id), request, unread)
        work.commit()


def put_time(work: Work, asker: Asker, enrolment: Enrolment, request: GrantTime, unread: Iterable[Fault] = ()) -> None:
    """As `grant_time`, within work that goes on; raises `RefusedError` with every reason."""
    faults = _together(unread, _time_faults(enrolment, request))
    others = [one for one in work.enrolments.time_granted(enrolment.id) if one.kind == request.kind]
    if request.kind == "leave" and not faults:
        faults = _leave_overlaps(request, others)
    if request.kind == "extension" and any(one.last_day == asker.today for one in others):
        faults.append(Fault("granted-today", N_("an extension was granted today already"), field="granted"))
    if faults:
        raise RefusedError(faults)
    leave = request.kind == "leave"
    first, last = (request.first_day, request.last_day) if leave else (None, asker.today)
    id, reason = secrets.token_hex(16), request.reason.strip()
    work.enrolments.add_time(
        enrolment.id, TimeGranted(id, request.kind, first, last, reason, asker.person_id, asker.now)
    )
    body = {"granted": id, "kind": request.kind, "first": _iso(first), "last": _iso(last), "reason": reason}
    work.record.append("time-granted", enrolment.id, asker.person_id, asker.now, body)


def _enrolment(work: Work, enrolment_id: str) -> Enrolment:
    enrolment = work.enrolments.by_id(enrolment_id)
    if enrolment is None:
        raise NotFoundError
    return enrolment


def _together(unread: Iterable[Fault], faults: list[Fault]) -> list[Fault]:
    """Every fault, but one for each field that could not be read."""
    first = list(unread)
    fields = {one.field for one in first}
    return first + [one for one in faults if one.field not in fields]


def _name_faults(name: str, field: str) -> list[Fault]:
    if not name.strip():
        return [Fault("no-name", N_("say which one it is"), field=field)]
    if len(name) > LONGEST_KIND:
        return [Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST_KIND}, field)]
    return []


def _reason_faults(reason: str, sentence: str, field: str) -> list[Fault]:
    if not reason.strip():
        return [Fault("no-reason", sentence, field=field)]
    if len(reason) > LONGEST_REASON:
        return [Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST_REASON}, field)]
    return []


def _span_faults(asker: Asker, request: ShowDocument) -> list[Fault]:
    if request.valid_from is None:
        return [Fault("no-day", N_("choose the day it is valid from"), field="from")]
    faults = []
    if request.valid_from > asker.today:
        faults.append(Fault("in-future", N_("it is not valid yet; record it from its first day on"), field="from"))
    if request.valid_to and request.valid_to < request.valid_from:
        faults.append(Fault("ends-early", N_("it ends before it begins"), field="to"))
    return faults


def _past_faults(asker: Asker, enrolment: Enrolment, day: date | None) -> list[Fault]:
    if day is None:
        return [Fault("no-day", N_("choose the day it was completed"), field="done")]
    if day > asker.today:
        return [Fault("in-future", N_("this day is still to come"), field="done")]
    if day < enrolment.enrolled_on:
        sentence = N_("the day is before the trainee was enrolled ({enrolled})")
        return [Fault("before-enrolment", sentence, {"enrolled": enrolment.enrolled_on}, "done")]
    return []


def _time_faults(enrolment: Enrolment, request: GrantTime) -> list[Fault]:
    faults = []
    if request.kind not in GRANTED:
        faults.append(Fault("no-kind", N_("choose an extension or a leave"), field="granted"))
    if not request.reason.strip():
        faults.append(Fault("no-reason", N_("say why it is granted"), field="why"))
    if len(request.reason) > LONGEST_REASON:
        faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST_REASON}, "why"))
    if request.kind != "leave":
        return faults
    if request.first_day is None:
        faults.append(Fault("no-day", N_("choose the first day of the leave"), field="first"))
    elif request.first_day < enrolment.enrolled_on:
        faults.append(Fault("before-enrolment", N_("the leave begins before the trainee was enrolled"), field="first"))
    if request.last_day is None:
        faults.append(Fault("no-day", N_("choose the last day of the leave"), field="last"))
    elif request.first_day and request.last_day < request.first_day:
        faults.append(Fault("ends-early", N_("it ends before it begins"), field="last"))
    return faults


def _leave_overlaps(request: GrantTime, others: list[TimeGranted]) -> list[Fault]:
    if any(request.first_day <= one.last_day and one.first_day <= request.last_day for one in others):
        return [Fault("overlap-leave", N_("a leave was granted for some of these days already"), field="first")]
    return []


def _iso(day: date | None) -> str:
    return day.isoformat() if day else ""
