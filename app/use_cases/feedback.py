"""A supervising teacher says how a taught lesson went: once it is signed, one strand at a time."""

import secrets
from datetime import datetime

from app.files.repertoire import edition_from_documents
from app.queries.feedback import can_have_feedback
from app.storage.feedback import GivenFeedback
from app.storage.hosts import Host
from app.storage.work import School, Store, Work
from curriculum.competencies.feedback import Said, feedback_faults
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError
from curriculum.repertoire.edition import Edition

LONGEST_ID = 36
WORDS = ("worked", "better", "next_step")


def give_feedback(  # noqa: PLR0913 - who says what of which lesson, and when
    store: Store, school: School, host: Host, session_id: str, feedback_id: str, said: Said, now: datetime
) -> GivenFeedback:
    """Keep it; `feedback_id` was made by the form, so that sending it twice gives it once."""
    with store.writing(school.id) as work:
        session = work.ledger.now(session_id)
        if session is None or session.host != host.id:
            raise NotFoundError
        known = work.feedback.by_id(feedback_id)
        if known is not None and known.session_id == session_id:
            return known
        if not can_have_feedback(session):
            raise ConflictError(N_("Feedback is for a lesson that the trainee taught and you have signed."))
        enrolment_id = work.ledger.enrolment_of(session_id)
        faults = feedback_faults(said, _edition(work, enrolment_id))
        if not 0 < len(feedback_id) <= LONGEST_ID or known is not None:
            faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
        if faults:
            raise RefusedError(faults)
        kept = {name: _words(work, host, getattr(said, name)) for name in WORDS}
        ids = (kept[name][0] for name in WORDS)
        given = GivenFeedback(
            feedback_id, session_id, enrolment_id, host.id, said.strand, said.level, said.exercise, *ids, now
        )
        work.feedback.add(given)
        body = {"feedback": feedback_id, "session": session_id, "strand": said.strand, "level": said.level}
        body |= {"exercise": said.exercise} | {name: words for name, (_, words) in kept.items()}
        work.record.append("feedback-given", session_id, f"host:{host.id}", now, body)
        work.commit()
    return given


def _edition(work: Work, enrolment_id: str) -> Edition:
    stored = work.editions.by_id(work.enrolments.by_id(enrolment_id).repertoire_id)
    return edition_from_documents(stored.documents)


def _words(work: Work, host: Host, words: str) -> tuple[str, str]:
    words_id = secrets.token_hex(16)
    return words_id, work.record.keep_words(words_id, host.id, words, secrets.token_bytes(16))
