"""What a host teacher decides of sessions through the private link: signed, signed for less time, sent back, denied."""

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from app.clock import day_in
from app.queries.ledger_proof import WRITES
from app.storage.hosts import Host, HostDecision
from app.storage.work import School, Store, Work
from app.use_cases.asker import Asker
from app.use_cases.refusing_signatures import refuse_signing
from app.use_cases.telling_worries import tell_directors, too_long
from assessments.hours.recorded import version_body
from assessments.hours.session import Session, after
from assessments.hours.shortening import Shorter, shortened, why_not_shorter
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError


@dataclass(frozen=True, slots=True)
class Decide:
    """What a host decides of one version of one session; a reason only to send back."""

    session_id: str
    version: int
    sign: bool
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of decision: the step it is for the session, what the decision is called, and its event on the record."""

    step: str
    decision: str
    event: str


SIGNED = Kind("sign", "signed_off", "session-signed")
SENT_BACK = Kind("send_back", "sent_back", "session-sent-back")
DENIED = Kind("send_back", "denied", "session-denied")


def decide_as_host(store: Store, school: School, host: Host, requests: tuple[Decide, ...], now: datetime) -> list[str]:
    """Sign or send back, all or none; gives the receipts."""
    with store.writing(school.id) as work:
        to_sign = [waiting_session(work, host, one.session_id, one.version) for one in requests if one.sign]
        refuse_signing(work, host, to_sign, day_in(now, school.time_zone))
        receipts = [_decide(work, host, one, now) for one in requests]
        work.commit()
    return receipts


def sign_shorter(  # noqa: PLR0913 - what a shorter session is signed with
    store: Store, school: School, host: Host, session_id: str, version: int, wish: Shorter, now: datetime
) -> str:
    """Sign a session for less time than was put down: a further version, signed at once; gives the receipt."""
    with store.writing(school.id) as work:
        known = waiting_session(work, host, session_id, version)
        faults = why_not_shorter(known, wish)
        if faults:
            raise RefusedError(faults)
        shorter = shortened(known, wish)
        refuse_signing(work, host, [shorter], day_in(now, school.time_zone))
        keep_version(work, host, shorter, "session-shortened", now)
        receipt = keep_decision(work, host, shorter, SIGNED, "", now)
        work.commit()
    return receipt


def deny(  # noqa: PLR0913 - who denies what, and why
    store: Store, asker: Asker, host: Host, session_id: str, version: int, words: str, address: str
) -> str:
    """The host did not teach this: it is refused, and can't be put down with this host again; gives the receipt.

    Directors are told by mail that there is something to read.
    """
    with store.writing(asker.school.id) as work:
        known = waiting_session(work, host, session_id, version)
        faults = too_long(words, "deny-words")
        if faults:
            raise RefusedError(faults)
        receipt = keep_decision(work, host, known, DENIED, words, asker.now)
        tell_directors(work, asker, address)
        work.commit()
    return receipt


def waiting_session(work: Work, host: Host, session_id: str, version: int) -> Session:
    """The version of a session that waits for this host; refuses what is another's, or decided or changed meanwhile."""
    known = work.ledger.now(session_id)
    if known is None or known.host != host.id:
        raise NotFoundError
    if known.version != version or known.state != "waiting":
        raise ConflictError(N_("One of these sessions was changed or decided meanwhile. Open the link again."))
    return known


def keep_decision(  # noqa: PLR0913 - what a decision is made of
    work: Work,
    host: Host,
    session: Session,
    kind: Kind,
    words: str,
    now: datetime,
    more: Mapping[str, str] | None = None,
) -> str:
    """Write a decision, where the session stands then, and the event of it; gives the receipt's number."""
    reason_id, reason_hash = None, ""
    if words.strip():
        reason_id = secrets.token_hex(16)
        reason_hash = work.record.keep_words(reason_id, host.id, words.strip(), secrets.token_bytes(16))
    receipt = secrets.token_hex(8).upper()
    decision = HostDecision(session.id, session.version, host.id, kind.decision, reason_id, receipt, now)
    work.hosts.add_decision(decision)
    work.ledger.set_state(session.id, after(session.state, kind.step), now)
    body = {"session": session.id, "version": session.version, "host": host.id, "receipt": receipt}
    body |= {"reason": reason_hash} | dict(more or {})
    work.record.append(kind.event, session.id, f"host:{host.id}", now, body)
    return receipt


def keep_version(work: Work, host: Host, session: Session, event: str, now: datetime) -> None:
    """Write a further version by the host, which waits; the trainee's note goes over to it as it is."""
    enrolment_id = work.ledger.enrolment_of(session.id)
    _, note_id = work.ledger.logged(session.id, session.version - 1)
    events = [one.content() for one in work.record.of_subject(session.id) if one.kind in WRITES]
    note = events[-1]["note"] if events else ""
    work.ledger.add_version(session, enrolment_id, note_id, "", host.id, now)
    body = version_body(session, enrolment_id, "", note)
    work.record.append(event, session.id, f"host:{host.id}", now, body)


def _decide(work: Work, host: Host, request: Decide, now: datetime) -> str:
    known = waiting_session(work, host, request.session_id, request.version)
    if request.sign:
        return keep_decision(work, host, known, SIGNED, "", now)
    field = f"reason-{request.session_id}"
    faults = too_long(request.reason, field)
    if not request.reason.strip():
        faults.append(Fault("no-reason", N_("say why you send it back"), field=field))
    if faults:
        raise RefusedError(faults)
    return keep_decision(work, host, known, SENT_BACK, request.reason, now)
