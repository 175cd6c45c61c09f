"""What people do with session plans: begin, keep, take the last change back, throw away."""

import secrets
from dataclasses import replace

from app.files.plans import write_plan
from app.storage.plans import KeptPlan
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from curriculum.faults import N_, ConflictError, NotFoundError
from curriculum.sessions.plan import Plan


def begin_plan(store: Store, asker: Asker, plan: Plan) -> KeptPlan:
    """A new plan of one's own."""
    kept = KeptPlan(secrets.token_hex(16), asker.person_id, write_plan(plan), "", 1, asker.now)
    with store.writing(asker.school.id) as work:
        work.plans.put(kept)
        work.commit()
    return kept


def keep_plan(store: Store, asker: Asker, plan_id: str, plan: Plan, version: int) -> KeptPlan:
    """Keep a plan as it is now; `ConflictError` if another tab kept it meanwhile."""
    with store.writing(asker.school.id) as work:
        known = own_plan(work, asker.person_id, plan_id, version)
        text = write_plan(plan)
        if text == known.document:
            return known
        kept = replace(known, document=text, before=known.document, version=known.version + 1, changed_at=asker.now)
        work.plans.put(kept)
        work.commit()
    return kept


def take_back(store: Store, asker: Asker, plan_id: str, version: int) -> KeptPlan:
    """Take the last change back; doing it again brings the change back."""
    with store.writing(asker.school.id) as work:
        known = own_plan(work, asker.person_id, plan_id, version)
        if not known.before:
            return known
        kept = replace(
            known, document=known.before, before=known.document, version=known.version + 1, changed_at=asker.now
        )
        work.plans.put(kept)
        work.commit()
    return kept


def throw_plan_away(store: Store, asker: Asker, plan_id: str, version: int) -> None:
    with store.writing(asker.school.id) as work:
        work.plans.remove(own_plan(work, asker.person_id, plan_id, version).id)
        work.commit()


def own_plan(work: Work, person_id: str, plan_id: str, version: int | None = None) -> KeptPlan:
    """One's own plan; `NotFoundError` for anybody else's, `ConflictError` if it was changed since `version`."""
    known = work.plans.by_id(plan_id)
    if known is None or known.person_id != person_id:
        raise NotFoundError
    if version is not None and known.version != version:
        raise ConflictError(N_("This plan was changed in another place meanwhile. Open it again to see how it stands."))
    return known
