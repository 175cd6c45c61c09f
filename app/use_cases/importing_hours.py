"""Many hours of one trainee taken at once from a table, all or none, and taken back at once."""

import secrets
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from zoneinfo import ZoneInfo

from app.queries.standing import requirements_of
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.hours import LogHours, keep_version
from app.use_cases.keeping_hours import kept_faults
from assessments.hours.log_rules import Bounds
from assessments.hours.session import KEPT_BY_THE_SCHOOL, STATE_OF_PROOF, Session
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

IMPORTED, UNDONE = "hours-imported", "import-undone"


@dataclass(frozen=True, slots=True)
class ImportHours:
    """`sessions` with their row in the file; `batch` was made by the form, so that sending it twice is once."""

    enrolment_id: str
    batch: str
    file_name: str
    evidence: str
    sessions: tuple[tuple[int, Session], ...]


def import_hours(store: Store, asker: Asker, request: ImportHours) -> int:
    """Put every session on record as accepted by the school; or none, with every fault of every row."""
    with store.writing(asker.school.id) as work:
        if work.enrolments.by_id(request.enrolment_id) is None:
            raise NotFoundError
        if batch_of(work, request.enrolment_id, request.batch) is not None:
            return len(request.sessions)
        faults = import_faults(work, asker, request)
        if faults:
            raise RefusedError(faults)
        for _, session in request.sessions:
            kept = replace(session, state=STATE_OF_PROOF[session.proof])
            logged = LogHours(request.enrolment_id, kept, evidence=request.evidence.strip())
            keep_version(work, asker, logged, kept, "hours-accepted")
        body = {"batch": request.batch, "sessions": [one.id for _, one in request.sessions]}
        body |= _kept_name(work, request)
        work.record.append(IMPORTED, request.enrolment_id, asker.person_id, asker.now, body)
        work.commit()
    return len(request.sessions)


def _kept_name(work: Work, request: ImportHours) -> dict[str, str]:
    """The file's name may hold the trainee's own: it is kept as their words are, and can be erased."""
    if not request.file_name:
        return {}
    words_id = secrets.token_hex(16)
    person = work.enrolments.by_id(request.enrolment_id).person_id
    hash = work.record.keep_words(words_id, person, request.file_name, secrets.token_bytes(16))
    return {"words": words_id, "file": hash}


def import_faults(work: Work, asker: Asker, request: ImportHours) -> list[Fault]:
    """Every fault of every row, its row as the fault's line; rows are held against each other too."""
    enrolment = work.enrolments.by_id(request.enrolment_id)
    requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
    local = asker.now.astimezone(ZoneInfo(asker.school.time_zone))
    others = list(work.ledger.of_enrolment(enrolment.id))
    faults = list(_taken_already(others, request))
    if not request.evidence.strip():
        faults.append(Fault("no-evidence", N_("say on what evidence the school takes them"), field="evidence"))
    for row, session in request.sessions:
        bounds = Bounds(local.date(), local.hour * 60 + local.minute, enrolment.enrolled_on, tuple(others))
        host = work.hosts.by_id(session.host) if session.host else None
        faults += [replace(one, line=row) for one in kept_faults(requirements, host, session, bounds)]
        others.append(session)
    return faults


def _taken_already(others: list[Session], request: ImportHours) -> Iterator[Fault]:
    """The same file sent anew would count everything twice; single rows may be alike."""
    known = Counter(_alike(one) for one in others if one.proof in KEPT_BY_THE_SCHOOL and one.state != "withdrawn")
    if request.sessions and not Counter(_alike(one) for _, one in request.sessions) - known:
        yield Fault(
            "taken-already", N_("every row of this file is on record already; was it taken before?"), field="file"
        )


def _alike(session: Session) -> tuple[object, ...]:
    return session.day, session.start, session.minutes, session.host, tuple(one.activity for one in session.parts)


def undo_import(store: Store, asker: Asker, enrolment_id: str, batch: str, reason: str) -> int:
    """Withdraw what an import put on record, with a reason; it stays in the ledger. Gives how many were withdrawn."""
    with store.writing(asker.school.id) as work:
        sessions = batch_of(work, enrolment_id, batch)
        if sessions is None:
            raise NotFoundError
        if not reason.strip():
            raise RefusedError([Fault("no-reason", N_("say why they no longer count"), field="undo-reason")])
        standing = [one for id in sessions if (one := work.ledger.now(id)) and one.state != "withdrawn"]
        if not standing:
            raise ConflictError(N_("These hours are withdrawn already."))
        for one in standing:
            work.ledger.set_state(one.id, "withdrawn", asker.now)
            body = {"session": one.id, "version": one.version, "reason": reason.strip()}
            work.record.append("hours-withdrawn", one.id, asker.person_id, asker.now, body)
        body = {"batch": batch, "reason": reason.strip()}
        work.record.append(UNDONE, enrolment_id, asker.person_id, asker.now, body)
        work.commit()
    return len(standing)


def batch_of(work: Work, enrolment_id: str, batch: str) -> list[str] | None:
    """The sessions that an import of this enrolment put on record; None if there was none."""
    for event in work.record.of_subject(enrolment_id):
        if event.kind == IMPORTED and event.content()["batch"] == batch:
            return event.content()["sessions"]
    return None
