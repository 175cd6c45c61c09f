"""The recording of an exam: the candidate agrees, the director notes where it is and that it is deleted, few open it."""

from fastapi.responses import Response

from app.permissions import DIRECTOR
from app.queries.recordings import may_open, recording_lines, recording_overview
from app.storage.exams import Exam
from app.use_cases.exams import own_exam
from app.use_cases.recordings import NoteRecording, agree, note_deleted, note_recording, open_recording
from app.web.door import Pages
from app.web.typed import typed_day, typed_text, whole_number
from app.web.visit import Here, Visit
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

pages = Pages()


@pages.get("/recordings", may="set exams")
def recordings(visit: Here) -> Response:
    """Every recording, what is to be deleted first."""
    with visit.store.reading(visit.school_id) as work:
        lines = recording_lines(work, visit.today, visit.school.time_zone, visit.language)
    return visit.show("recordings/recordings.html", lines=lines)


@pages.get("/exams/{exam_id}/recording", may="set exams")
def recording(visit: Here, exam_id: str) -> Response:
    return _recording(visit, _exam(visit, exam_id), "/exams", [], 200)


@pages.post("/exams/{exam_id}/recording", may="set exams")
def note(visit: Here, exam_id: str) -> Response:
    exam = _exam(visit, exam_id)
    try:
        note_recording(visit.store, visit.asker, _typed(visit, exam_id))
    except RefusedError as refusal:
        return _recording(visit, exam, "/exams", visit.faults(refusal.faults), 422)
    return visit.go(f"/exams/{exam_id}/recording", visit.say(N_("Kept.")))


@pages.post("/exams/{exam_id}/recording/open", may="set exams")
def open_it(visit: Here, exam_id: str) -> Response:
    """The address, shown once; the opening is on record."""
    link = open_recording(visit.store, visit.asker, exam_id, DIRECTOR in visit.roles)
    return _recording(visit, _exam(visit, exam_id), "/exams", [], 200, link)


@pages.post("/exams/{exam_id}/recording/deleted", may="set exams")
def deleted(visit: Here, exam_id: str) -> Response:
    note_deleted(visit.store, visit.asker, exam_id, whole_number(visit.typed("known")))
    return visit.go(
        f"/exams/{exam_id}/recording", visit.say(N_("Noted: it is deleted, and where it was is forgotten."))
    )


@pages.get("/sheets/{exam_id}/recording", may="score own exams")
def for_examiner(visit: Here, exam_id: str) -> Response:
    """How it stands; a further examiner, who marks from it, can open it."""
    return _recording(visit, _own(visit, exam_id), "/sheets", [], 200)


@pages.post("/sheets/{exam_id}/recording/open", may="score own exams")
def open_as_examiner(visit: Here, exam_id: str) -> Response:
    exam = _own(visit, exam_id)
    link = open_recording(visit.store, visit.asker, exam_id, False)
    return _recording(visit, exam, "/sheets", [], 200, link)


@pages.post("/my-practicals/{exam_id}/recording", may="see own practicals")
def own_word(visit: Here, exam_id: str) -> Response:
    """The candidate agrees to be recorded, or does not."""
    agree(visit.store, visit.asker, exam_id, visit.typed("agreed") == "yes")
    return visit.go(f"/my-practicals/{exam_id}", visit.say(N_("Kept.")))


def _typed(visit: Visit, exam_id: str) -> NoteRecording:
    faults: list[Fault] = []
    typed = typed_text(visit.form, "until")
    until = typed_day(typed, "until", N_("choose the day, or leave it open"), faults) if typed else None
    if faults:
        raise RefusedError(faults)
    link, why = typed_text(visit.form, "link").strip(), typed_text(visit.form, "why")
    return NoteRecording(exam_id, link, until, why, whole_number(visit.typed("known")))


def _exam(visit: Visit, exam_id: str) -> Exam:
    with visit.store.reading(visit.school_id) as work:
        exam = work.exams.by_id(exam_id)
    if exam is None:
        raise NotFoundError
    return exam


def _own(visit: Visit, exam_id: str) -> Exam:
    with visit.store.reading(visit.school_id) as work:
        return own_exam(work, exam_id, visit.person.id)


def _recording(visit: Visit, exam: Exam, place: str, faults: list, status: int, link: str = "") -> Response:
    with visit.store.reading(visit.school_id) as work:
        overview = recording_overview(work, exam, visit.today, visit.school.time_zone, visit.language)
        may = may_open(work, exam, visit.person.id, place == "/exams")
    values = {
        "overview": overview,
        "place": place,
        "faults": faults,
        "link": link,
        "typed": visit.typed,
        "may_open": may,
    }
    return visit.show("recordings/recording.html", status, **values)
