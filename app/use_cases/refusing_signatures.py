"""Refuse signatures that the trainees' requirement sets don't allow, before any is given."""

from collections.abc import Sequence
from datetime import date

from app.queries.standing import requirements_of
from app.storage.hosts import Host
from app.storage.work import Work
from assessments.hours.session import Session
from assessments.hours.signing_rules import SigningBounds, signing_refusals
from curriculum.faults import RefusedError


def refuse_signing(work: Work, host: Host, sessions: Sequence[Session], today: date) -> None:
    """Raise `RefusedError` with every reason why this host can't sign these sessions together today."""
    of_trainee = {one.id: work.ledger.enrolment_of(one.id) for one in sessions}
    signing = {key: _signing(work, key) for key in dict.fromkeys(of_trainee.values())}
    if not any(one.within_days or one.at_once or one.host_day for one in signing.values()):
        return
    signed = [one for _, one in work.ledger.signed_by(host.id)]
    faults = []
    for one in sessions:
        at_once = tuple(other for other in sessions if of_trainee[other.id] == of_trainee[one.id])
        of_day = tuple(other for other in (*signed, *sessions) if other.day == one.day)
        faults += signing_refusals(one, signing[of_trainee[one.id]], SigningBounds(today, at_once, of_day))
    if faults:
        raise RefusedError({fault.text(): fault for fault in faults}.values())


def _signing(work: Work, enrolment_id: str):  # noqa: ANN202 - the signing rules of a set
    return requirements_of(work.editions.by_id(work.enrolments.by_id(enrolment_id).requirements_id)).signing
