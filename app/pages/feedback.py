"""The supervising teacher's feedback on a taught lesson, under the host's private link."""

import uuid

from fastapi.responses import Response

from app.permissions import LINK_HOLDER
from app.queries.feedback import can_have_feedback, exercises_of, feedback_shown
from app.queries.host import host_session
from app.storage.hosts import Host
from app.use_cases.feedback import give_feedback
from app.web.door import Pages
from app.web.link_holder import ended, host_of, refuse_foreign_form
from app.web.typed import typed_text
from app.web.visit import Here, Visit
from app.wording.feedback import LEVELS
from curriculum.competencies.feedback import Said
from curriculum.competencies.statements import STRAND_NAMES
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()
PATH = "/h/{link}/sessions/{session_id}/feedback"
TEXTS = ("strand", "level", "exercise", "worked", "better", "next_step")


@pages.get(PATH, may=LINK_HOLDER)
def feedback(visit: Here, link: str, session_id: str) -> Response:
    """What was said of the lesson already, and the form to say more."""
    host = host_of(visit, link)
    return _show(visit, host, session_id, [], 200) if host else ended(visit, link)


@pages.post(PATH, may=LINK_HOLDER)
def give(visit: Here, link: str, session_id: str) -> Response:
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    refuse_foreign_form(visit)
    said = Said(**{name: typed_text(visit.form, name) for name in TEXTS})
    try:
        give_feedback(visit.store, visit.school, host, session_id, typed_text(visit.form, "id"), said, visit.now)
    except RefusedError as refusal:
        return _show(visit, host, session_id, visit.faults(refusal.faults), 422)
    return visit.go(visit.path, visit.say(N_("Kept. The trainee reads it beside the session.")))


def _show(visit: Visit, host: Host, session_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        session = work.ledger.now(session_id)
        if session is None or session.host != host.id or not can_have_feedback(session):
            raise NotFoundError
        enrolment = work.enrolments.by_id(work.ledger.enrolment_of(session_id))
        overview = host_session(work, session, visit.language)
        exercises = exercises_of(work, session, visit.language)
        given = feedback_shown(work, enrolment, visit.language, session_id)
    nothing = ("", visit.say(N_("choose")))
    return visit.show(
        "feedback/feedback.html",
        status,
        host=host,
        overview=overview,
        given=given,
        faults=faults,
        typed={name: typed_text(visit.form, name) for name in TEXTS},
        request_id=typed_text(visit.form, "id") or str(uuid.uuid4()),
        exercises=exercises,
        strands=[nothing, *((value, visit.say(words)) for value, words in STRAND_NAMES.items())],
        levels=[(value, visit.say(words)) for value, words in LEVELS.items()],
        back=f"/h/{visit.request.path_params['link']}",
    )
