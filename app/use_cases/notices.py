"""Safety notices: issued to everybody at once, read by each, ended with a reason."""

import secrets

from app.queries.repertoire import subjects_of
from app.storage.notices import SafetyNotice
from app.storage.work import Store
from app.use_cases.asker import Asker
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

LONGEST = 1_000


def issue_notice(store: Store, asker: Asker, about: str, text: str) -> SafetyNotice:
    """Put a notice before everybody; `about` is the id of an exercise or an apparatus, or "" for everything."""
    with store.writing(asker.school.id) as work:
        faults = []
        if about and about not in subjects_of(work):
            faults.append(Fault("no-subject", N_("choose an exercise or an apparatus from the list"), field="about"))
        if not text.strip():
            faults.append(Fault("no-text", N_("say what to do or not to do from now on"), field="text"))
        if len(text) > LONGEST:
            faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, "text"))
        if faults:
            raise RefusedError(faults)
        notice = SafetyNotice(secrets.token_hex(16), about, " ".join(text.split()), asker.person_id, asker.now)
        work.notices.add(notice)
        body = {"notice": notice.id, "about": about, "text": notice.text}
        work.record.append("safety-notice-issued", notice.id, asker.person_id, asker.now, body)
        work.commit()
    return notice


def read_notice(store: Store, asker: Asker, notice_id: str) -> None:
    """Note that somebody has read a notice; the first time counts."""
    with store.writing(asker.school.id) as work:
        if work.notices.by_id(notice_id) is None:
            raise NotFoundError
        work.notices.mark_read(notice_id, asker.person_id, asker.now)
        work.commit()


def end_notice(store: Store, asker: Asker, notice_id: str, reason: str) -> None:
    """Take a notice back, with a reason; that it stood stays on record."""
    with store.writing(asker.school.id) as work:
        notice = work.notices.by_id(notice_id)
        if notice is None:
            raise NotFoundError
        if notice.ended_at is not None:
            raise ConflictError(N_("This notice is ended already."))
        if not reason.strip():
            raise RefusedError([Fault("no-reason", N_("say why it no longer stands"), field=f"reason-{notice_id}")])
        work.notices.end(notice_id, reason.strip(), asker.now)
        body = {"notice": notice_id, "reason": reason.strip()}
        work.record.append("safety-notice-ended", notice_id, asker.person_id, asker.now, body)
        work.commit()
