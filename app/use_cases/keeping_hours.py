"""What the school does with hours it keeps itself: accept or register them on evidence, correct and withdraw them."""

from collections import Counter
from dataclasses import dataclass, replace
from zoneinfo import ZoneInfo

from app.queries.standing import facts_of, requirements_of
from app.storage.enrolments import Enrolment
from app.storage.hosts import Host
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.hours import LogHours, keep_version
from assessments.hours.assessing import assess
from assessments.hours.log_rules import KEPT_RULES, Bounds, refusals
from assessments.hours.session import KEPT_BY_THE_SCHOOL, STATE_OF_PROOF, Session, entries_of
from curriculum.faults import N_, ConflictError, Fault, NotAllowedError, NotFoundError, RefusedError
from curriculum.requirements.requirement_set import RequirementSet

EVENT_OF_PROOF = {"accepted": "hours-accepted", "registered": "hours-registered"}


@dataclass(frozen=True, slots=True)
class KeepHours:
    """Hours the school takes; `id` was made by the form. `sure` keeps them although part of them earns nothing.

    `reason` is for a correction, which is one if `expected_version` is over 0.
    """

    enrolment_id: str
    session: Session
    evidence: str
    reason: str = ""
    expected_version: int = 0
    sure: bool = False


def keep_hours(store: Store, asker: Asker, request: KeepHours) -> Session:
    """Take hours on the school's own proof, or a correction of them; every refusal at once, then what would earn nothing."""
    with store.writing(asker.school.id) as work:
        enrolment = work.enrolments.by_id(request.enrolment_id)
        if enrolment is None:
            raise NotFoundError
        known = _known(work, request)
        session = _as_kept(request.session, known)
        if known is not None and known.version != request.expected_version:
            return _once(known, session, request)
        _refuse(work, asker, enrolment, request, session)
        logged = LogHours(enrolment.id, session, evidence=request.evidence.strip())
        kind = "hours-corrected" if known else EVENT_OF_PROOF[session.proof]
        keep_version(work, asker, logged, session, kind, request.reason.strip())
        work.commit()
    return session


def withdraw_kept(store: Store, asker: Asker, enrolment_id: str, session_id: str, reason: str) -> None:
    """Let hours that the school took no longer count, with a reason; they stay on record."""
    with store.writing(asker.school.id) as work:
        known = work.ledger.now(session_id)
        if known is None or work.ledger.enrolment_of(session_id) != enrolment_id:
            raise NotFoundError
        if known.proof not in KEPT_BY_THE_SCHOOL:
            raise NotAllowedError(N_("A host signs this session; the school does not change it."))
        if known.state == "withdrawn":
            raise ConflictError(N_("These hours are withdrawn already."))
        if not reason.strip():
            raise RefusedError([Fault("no-reason", N_("say why they no longer count"), field="withdraw-reason")])
        work.ledger.set_state(session_id, "withdrawn", asker.now)
        body = {"session": session_id, "version": known.version, "reason": reason.strip()}
        work.record.append("hours-withdrawn", session_id, asker.person_id, asker.now, body)
        work.commit()


def _known(work: Work, request: KeepHours) -> Session | None:
    """The session as it stands, if the school may change it; an id made by a form may name any."""
    known = work.ledger.now(request.session.id)
    if known is None:
        if request.expected_version:
            raise NotFoundError
        return None
    if work.ledger.enrolment_of(known.id) != request.enrolment_id:
        raise NotFoundError
    if known.proof not in KEPT_BY_THE_SCHOOL:
        raise NotAllowedError(N_("A host signs this session; the school does not change it."))
    if known.state == "withdrawn":
        raise ConflictError(N_("These hours are withdrawn already."))
    if len(known.parts) > 1:
        raise ConflictError(N_("These hours have several parts. Withdraw them and record each part anew."))
    return known


def _as_kept(typed: Session, known: Session | None) -> Session:
    """With its version and state; times of day that were known stay if the length does."""
    if known and known.timed and typed.days == 1 and known.minutes == typed.minutes:
        typed = replace(typed, start=known.start, end=known.end, breaks=known.breaks)
    return replace(typed, version=(known.version if known else 0) + 1, state=STATE_OF_PROOF[typed.proof])


def _once(known: Session, session: Session, request: KeepHours) -> Session:
    """The same form sent twice is one session; another form over a newer version is a conflict."""
    if known.version == request.expected_version + 1 and known == replace(session, version=known.version):
        return known
    raise ConflictError(N_("These hours were changed meanwhile. Open them again to see how they stand."))


def _refuse(work: Work, asker: Asker, enrolment: Enrolment, request: KeepHours, session: Session) -> None:
    requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
    local = asker.now.astimezone(ZoneInfo(asker.school.time_zone))
    others = tuple(one for one in work.ledger.of_enrolment(enrolment.id) if one.id != session.id)
    bounds = Bounds(local.date(), local.hour * 60 + local.minute, enrolment.enrolled_on, others)
    host = work.hosts.by_id(session.host) if session.host else None
    faults = kept_faults(requirements, host, session, bounds)
    if not request.evidence.strip():
        faults.append(Fault("no-evidence", N_("say on what evidence the school takes them"), field="evidence"))
    if request.expected_version and not request.reason.strip():
        faults.append(Fault("no-reason", N_("say why they are corrected"), field="reason"))
    if not faults and not request.sure:
        faults = _earning_nothing(work, asker, enrolment, requirements, session)
    if faults:
        raise RefusedError(faults)


def kept_faults(requirements: RequirementSet, host: Host | None, session: Session, bounds: Bounds) -> list[Fault]:
    """Why the school can't keep a session as it is: its rules, its values, its host (None where nobody knows it)."""
    faults = [*refusals(session, bounds, KEPT_RULES), *_value_faults(requirements, session)]
    return faults + (_host_faults(host, session) if session.host else [])


def _value_faults(requirements: RequirementSet, session: Session) -> list[Fault]:
    """The activity, and fields for which the set has a closed list."""
    (part,) = session.parts
    given = {"activity": part.activity, "mode": part.mode, "apparatus": part.apparatus, "level": part.level}
    given |= {"client": part.client, "site": session.site, "setting": session.setting, **part.more}
    faults = [] if part.activity else [Fault("no-activity", N_("choose what was done"), field="activity")]
    for name, allowed in requirements.fields.items():
        if given.get(name) and given[name] not in allowed:
            faults.append(Fault("not-listed", N_("choose one from the list"), field=f"field-{name}"))
    return faults


def _host_faults(host: Host | None, session: Session) -> list[Fault]:
    if host is None:
        return [Fault("unknown-host", N_("choose a host teacher from the list"), field="host")]
    if not (host.eligible_on(session.first or session.day) and host.eligible_on(session.day)):
        sentence = N_("{host} was not a registered host at that time; leave the host open, or choose another")
        return [Fault("not-eligible", sentence, {"host": host.name}, field="host")]
    return []


def _earning_nothing(
    work: Work, asker: Asker, enrolment: Enrolment, requirements: RequirementSet, session: Session
) -> list[Fault]:
    """What of these hours would earn nothing and why, to be said before they are on record."""
    others = [
        entry for one in work.ledger.of_enrolment(enrolment.id) if one.id != session.id for entry in entries_of(one)
    ]
    entries, facts = (*others, *entries_of(session)), facts_of(work, enrolment)
    standing = assess(requirements, entries, facts, as_of=asker.today, enrolled=enrolment.enrolled_on)
    why: Counter[str] = Counter()
    for one in standing.set_aside:
        if one.entry.startswith(f"{session.id}/"):
            why[one.reason] += one.minutes
    sentence = N_("{time} of it would earn nothing: {why}")
    return [Fault("earns-nothing", sentence, {"time": some, "why": reason}, "sure") for reason, some in why.items()]
