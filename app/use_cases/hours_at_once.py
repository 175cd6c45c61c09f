"""Sessions that a device kept and sends together: each is taken, known already, or not taken and why; one transaction."""

from dataclasses import dataclass

from app.storage.work import Store
from app.use_cases.asker import Asker
from app.use_cases.hours import LogHours, take_session
from assessments.hours.session import Session
from curriculum.faults import ConflictError, Fault, NotAllowedError, NotFoundError, RefusedError


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one of them: `session` as it stands now if it was taken (now or before), else why it was not.

    `stands` is what the school has under the same id, where that is something else.
    """

    id: str
    session: Session | None = None
    is_new: bool = False
    faults: tuple[Fault, ...] = ()
    error: Exception | None = None
    stands: Session | None = None


def log_at_once(
    store: Store, asker: Asker, requests: tuple[LogHours, ...], link_days: int, address: str
) -> tuple[Outcome, ...]:
    """Take what can be taken, in the order given; what is refused leaves nothing behind. All are of one enrolment."""
    if not requests:
        return ()
    outcomes = []
    with store.writing(asker.school.id) as work:
        days = {one.session.day for one in requests}
        others = {one.id: one for one in work.ledger.on_days(requests[0].enrolment_id, days)}
        for request in requests:
            id = request.session.id
            try:
                session, is_new = take_session(work, asker, request, others.values(), link_days, address)
            except RefusedError as refusal:
                outcomes.append(Outcome(id, faults=refusal.faults, error=refusal))
            except ConflictError as conflict:
                outcomes.append(Outcome(id, error=conflict, stands=work.ledger.now(id)))
            except (NotFoundError, NotAllowedError) as error:
                outcomes.append(Outcome(id, error=error))
            else:
                others[id] = session
                outcomes.append(Outcome(id, session, is_new))
        work.commit()
    return tuple(outcomes)
