"""Notes of one's own sessions: which exercises, cues heard, faults seen and how they were mended."""

from urllib.parse import urlencode

from fastapi.responses import Response

from app.queries import notes as query
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.use_cases.notes import keep_notes
from app.web.door import Pages
from app.web.note_form import MOST_ASKED, NoteForm
from app.web.visit import Here, Visit
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/hours/sessions/{session_id}/notes", may="note own sessions")
def notes(visit: Here, session_id: str, q: str = "") -> Response:
    """What is noted of a session, and lists to choose from."""
    return _notes(visit, session_id, None, [], 200, " ".join(q.split())[:MOST_ASKED])


@pages.post("/hours/sessions/{session_id}/notes", may="note own sessions")
def keep(visit: Here, session_id: str) -> Response:
    """Keep the notes, or look for an exercise and keep them as ticked on the page."""
    try:
        form = NoteForm.typed(visit.form)
    except RefusedError as refusal:
        return _notes(visit, session_id, None, visit.faults(refusal.faults), 422)
    if form.do == "find":
        return _notes(visit, session_id, form, [], 200)
    try:
        asker = visit.asker
        keep_notes(visit.store, asker, session_id, form.lines, form.version)
    except RefusedError as refusal:
        return _notes(visit, session_id, form, visit.faults(refusal.faults), 422)
    # The enter key in the search field presses the first button, which keeps: the search goes on then.
    search = f"?{urlencode({'q': form.asked})}" if form.asked not in ("", form.searched) else ""
    return visit.go(f"/hours/sessions/{session_id}/notes{search}", visit.say(N_("Noted.")))


def _notes(
    visit: Visit, session_id: str, form: NoteForm | None, faults: list, status: int, asked: str = ""
) -> Response:
    with visit.store.reading(visit.school_id) as work:
        enrolment = _own(work, visit.person.id, session_id)
        if form is None:
            lines, known = query.noted_now(work, enrolment, session_id)
            form = NoteForm(known, lines, asked=asked)
        overview = query.notes_overview(work, enrolment, session_id, form.lines, form.asked, visit.language)
    return visit.show("notes/notes.html", status, overview=overview, form=form, faults=faults, session_id=session_id)


def _own(work: Work, person_id: str, session_id: str) -> Enrolment:
    enrolment = work.enrolments.by_id(work.ledger.enrolment_of(session_id) or "")
    if enrolment is None or enrolment.person_id != person_id:
        raise NotFoundError
    return enrolment
