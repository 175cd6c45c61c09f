"""What people do with hours: log, correct and withdraw; their host is asked to sign by a private link."""

import hashlib
import secrets
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from app.clock import day_in
from app.queries.prospects import why_it_earns_nothing
from app.storage.host_terms import DECLINED, TAKEN
from app.storage.hosts import Host
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.wording.mails import hours_to_sign
from assessments.hours.log_rules import Bounds, refusals
from assessments.hours.recorded import version_body
from assessments.hours.session import KEPT_BY_THE_SCHOOL, STATE_OF_PROOF, Session, after
from curriculum.faults import N_, ConflictError, Fault, NotAllowedError, NotFoundError, RefusedError

SELF_ATTESTED = ("self_practice",)


@dataclass(frozen=True, slots=True)
class LogHours:
    """A session as typed; `id` was made by the form, so that sending it twice is sending it once.

    Unless `sure`, a new session that would earn nothing is refused once with the reason.
    """

    enrolment_id: str
    session: Session
    note: str = ""
    evidence: str = ""
    expected_version: int = 0
    sure: bool = True


def log_hours(store: Store, asker: Asker, request: LogHours, link_days: int, address: str) -> Session:
    """Log a session or a correction of one, and ask its host to sign; every refusal at once."""
    with store.writing(asker.school.id) as work:
        others = work.ledger.on_days(request.enrolment_id, [request.session.day])
        session, is_new = take_session(work, asker, request, others, link_days, address)
        if is_new:
            work.commit()
    return session


def take_session(  # noqa: PLR0913 - the same for one session and for many at once
    work: Work, asker: Asker, request: LogHours, others: Iterable[Session], link_days: int, address: str
) -> tuple[Session, bool]:
    """The session as it stands now, and whether anything was written; nothing is where it is refused.

    `others` are the enrolment's sessions of that day. The same again is taken once; other content is a `ConflictError`.
    """
    known = work.ledger.now(request.session.id)
    if known is not None:
        _refuse_strangers(work, request, known)
        if known.version != request.expected_version:
            return _once(work, known, request), False
    session = replace(request.session, version=(known.version if known else 0) + 1)
    _refuse(work, asker, request, session, tuple(others))
    state = STATE_OF_PROOF[session.proof]
    session = replace(session, state=after(state, "send") or state)
    keep_version(work, asker, request, session)
    if session.state == "waiting":
        _ask_host(work, asker, session.host, link_days, address)
    return session, True


def withdraw(store: Store, asker: Asker, session_id: str) -> None:
    """Take a session back before it is signed."""
    with store.writing(asker.school.id) as work:
        now = work.ledger.now(session_id)
        state = after(now.state, "withdraw") if now else None
        if now is None:
            raise NotFoundError
        if state is None:
            raise ConflictError(N_("This session is signed already; a correction makes a new version instead."))
        work.ledger.set_state(session_id, state, asker.now)
        body = {"session": session_id, "version": now.version}
        work.record.append("session-withdrawn", session_id, asker.person_id, asker.now, body)
        work.commit()


def _refuse_strangers(work: Work, request: LogHours, known: Session) -> None:
    """An id is made by the form, so it may name a session of somebody else, or one that is not the trainee's to change."""
    if work.ledger.enrolment_of(known.id) != request.enrolment_id:
        raise NotFoundError
    if known.proof in KEPT_BY_THE_SCHOOL:
        raise NotAllowedError(N_("The school keeps this session; ask the school to correct it."))


def _once(work: Work, known: Session, request: LogHours) -> Session:
    """What came before under this id is taken once, though it may be corrected since; anything else is a conflict."""
    before = work.ledger.logged(known.id, request.expected_version + 1)
    if before is not None:
        session, note_id = before
        said = work.record.words(note_id) if note_id else ""
        same = replace(request.session, version=session.version, state=session.state) == session
        if same and said in (None, request.note.strip()):
            return known
    raise ConflictError(N_("This session was changed meanwhile. Open it again to see how it stands."))


def _refuse(work: Work, asker: Asker, request: LogHours, session: Session, others: tuple[Session, ...]) -> None:
    enrolment = work.enrolments.by_id(request.enrolment_id)
    if enrolment is None:
        raise NotFoundError
    local = asker.now.astimezone(ZoneInfo(asker.school.time_zone))
    bounds = Bounds(local.date(), local.hour * 60 + local.minute, enrolment.enrolled_on, others)
    faults = list(refusals(session, bounds))
    if session.host:
        faults += _host_faults(work.hosts.by_id(session.host), session.day)
        faults += _denied_faults(work, session)
        faults += _terms_faults(work, asker, enrolment.person_id, session)
    if session.proof == "attested" and any(part.activity not in SELF_ATTESTED for part in session.parts):
        faults.append(Fault("not-attested", N_("only your own practice can be attested without a host"), field="host"))
    if session.proof == "accepted" and not request.evidence.strip():
        faults.append(Fault("no-evidence", N_("say on what evidence the school accepts it"), field="evidence"))
    if not faults and not request.sure and session.version == 1:
        why = why_it_earns_nothing(work, enrolment, session, local.date())
        sentence = N_("it would earn nothing: {why}")
        faults += [Fault("earns-nothing", sentence, {"why": why}, "sure")] if why else []
    if faults:
        raise RefusedError(faults)


def _host_faults(host: Host | None, day: date) -> list[Fault]:
    if host is None:
        return [Fault("unknown-host", N_("choose a host teacher from the list"), field="host")]
    if not host.eligible_on(day):
        sentence = N_("{host} was not a registered host on that day; choose another or ask the school")
        return [Fault("not-eligible", sentence, {"host": host.name}, field="host")]
    return []


def _denied_faults(work: Work, session: Session) -> list[Fault]:
    """Whoever said that they did not teach it is not asked again."""
    if any(one.decision == "denied" and one.host_id == session.host for one in work.hosts.decisions(session.id)):
        sentence = N_("this host teacher says they did not teach it; choose who did, or withdraw it")
        return [Fault("denied", sentence, field="host")]
    return []


def _terms_faults(work: Work, asker: Asker, person_id: str, session: Session) -> list[Fault]:
    """A host may decline a trainee, or take only whom they were asked about: from the day after they said so."""
    known = work.ledger.now(session.id)
    if known is not None and known.host == session.host:
        return []
    terms, standing = work.host_terms.of(session.host), work.host_terms.standing(session.host, person_id)
    if standing is not None and standing.standing == DECLINED:
        if session.day > day_in(standing.since, asker.school.time_zone):
            sentence = N_("this host teacher does not take you on; choose another, or ask the school")
            return [Fault("declined", sentence, field="host")]
    elif terms is not None and terms.ask_first and (standing is None or standing.standing != TAKEN):
        if session.day > day_in(terms.since, asker.school.time_zone):
            sentence = N_("this host teacher wants to be asked first, under Host teachers; they take you, or not")
            return [Fault("ask-first", sentence, field="host")]
    return []


def keep_version(
    work: Work, asker: Asker, request: LogHours, session: Session, kind: str = "session-logged", reason: str = ""
) -> None:
    """Write a version of a session, and the event of this kind on the record."""
    note_id, note_hash = None, ""
    if request.note.strip():
        note_id = secrets.token_hex(16)
        note_hash = work.record.keep_words(note_id, asker.person_id, request.note.strip(), secrets.token_bytes(16))
    work.ledger.add_version(session, request.enrolment_id, note_id, request.evidence, asker.person_id, asker.now)
    body = version_body(session, request.enrolment_id, request.evidence, note_hash, reason)
    work.record.append(kind, session.id, asker.person_id, asker.now, body)


def _ask_host(work: Work, asker: Asker, host_id: str, link_days: int, address: str) -> None:
    host = work.hosts.by_id(host_id)
    if work.hosts.link_made_since(host_id, asker.now - timedelta(hours=12)):
        return
    link = new_link(work, asker, host_id, link_days, address)
    subject, words = hours_to_sign(asker.school.name, asker.name, link, link_days, asker.language)
    work.mail.add(OutgoingMail(secrets.token_hex(16), host.email, host.name, subject, words, asker.now))


def new_link(work: Work, asker: Asker, host_id: str, link_days: int, address: str) -> str:
    """A private link for a host that works for so many days; only its hash is kept."""
    token = secrets.token_urlsafe(32)
    work.hosts.add_link(_hash(token), host_id, asker.now, asker.now + timedelta(days=link_days))
    return f"{address}/h/{asker.school.id}.{token}"


def _hash(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
