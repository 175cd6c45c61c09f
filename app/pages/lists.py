"""Exercise lists for exams: drawn by the director, opened by the examiners with a start code."""

import uuid

from fastapi.responses import Response

from app.files.drawing import bank_csv, specification_yaml, transitions_csv
from app.queries import lists as query
from app.storage.lists import KeptDrawing
from app.storage.work import Work
from app.use_cases.drawing_lists import draw_lists, open_lists
from app.web.door import Pages
from app.web.list_form import ListForm
from app.web.visit import Here, Visit
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()
FILES = {"bank.csv": "bank", "transitions.csv": "bank", "specification.yaml": "specification"}
WRITERS = {"bank.csv": bank_csv, "transitions.csv": transitions_csv, "specification.yaml": specification_yaml}


@pages.get("/lists", may="set exams")
def lists(visit: Here) -> Response:
    """What can be drawn, and what was."""
    with visit.store.reading(visit.school_id) as work:
        open_ones = query.to_draw(work, visit.today)
        drawn = query.drawing_lines_of(work, visit.language)
    return visit.show("lists/lists.html", to_draw=open_ones, drawn=drawn)


@pages.get("/lists/new", may="set exams")
def new(visit: Here) -> Response:
    """The form of a drawing for the part that the link names, else the first on offer; exams without a list are chosen."""
    asked = visit.request.query_params
    practical, part = asked.get("practical", ""), asked.get("part", "")
    if not practical:
        with visit.store.reading(visit.school_id) as work:
            offered = query.to_draw(work, visit.today)
        if not offered:
            return visit.go("/lists")
        practical, part = offered[0].practical_id, offered[0].part
    form = ListForm(str(uuid.uuid4()), practical, part)
    return _new(visit, form, [], 200, fresh=True)


@pages.post("/lists/new", may="set exams")
def draw_new(visit: Here) -> Response:
    form = ListForm.typed(visit.form)
    try:
        drawn = draw_lists(visit.store, visit.asker, form.request())
    except RefusedError as refusal:
        return _new(visit, form, visit.faults(refusal.faults), 422)
    return visit.go(f"/lists/{drawn}", visit.say(N_("The lists are drawn.")))


@pages.get("/lists/{drawing_id}", may="set exams")
def one_drawing(visit: Here, drawing_id: str) -> Response:
    with visit.store.reading(visit.school_id) as work:
        overview = query.drawing_overview(work, _found(work, drawing_id), visit.person.id, visit.today, visit.language)
    return visit.show("lists/drawing.html", overview=overview)


@pages.get("/lists/{drawing_id}/{drawn_file}", may="set exams")
def take_away(visit: Here, drawing_id: str, drawn_file: str) -> Response:
    """What the lists were drawn from, as the command line reads it."""
    if drawn_file not in FILES:
        raise NotFoundError
    with visit.store.reading(visit.school_id) as work:
        kept = getattr(_found(work, drawing_id), FILES[drawn_file])
    sent = {"content-disposition": f'attachment; filename="{drawn_file}"'}
    return Response(WRITERS[drawn_file](kept), media_type="text/plain; charset=utf-8", headers=sent)


@pages.get("/sheets/{exam_id}/start", may="score own exams")
def start(visit: Here, exam_id: str) -> Response:
    """Where an examiner types the start code that stands on the room's paper."""
    return _start(visit, exam_id, [], 200)


@pages.post("/sheets/{exam_id}/start", may="score own exams")
def open_list(visit: Here, exam_id: str) -> Response:
    try:
        open_lists(visit.store, visit.asker, exam_id, visit.typed("code"))
    except RefusedError as refusal:
        return _start(visit, exam_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/sheets/{exam_id}", visit.say(N_("The list is open. The opening is on record.")))


def _start(visit: Visit, exam_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None or visit.person.id not in work.exams.seats(exam_id):
            raise NotFoundError
        who, when = query.who_and_when(work, [exam], visit.language)[exam_id]
        sealed = query.sealed_parts(work, exam, visit.person.id)
    return visit.show(
        "lists/start.html", status, exam_id=exam_id, who=who, when=when, sealed=bool(sealed), faults=faults
    )


def _new(visit: Visit, form: ListForm, faults: list, status: int, fresh: bool = False) -> Response:
    with visit.store.reading(visit.school_id) as work:
        overview = query.drawing_choices(work, form.practical, form.part, visit.today, visit.language)
    if fresh:
        form = form.begun(overview)
    return visit.show("lists/new.html", status, form=form, faults=faults, overview=overview)


def _found(work: Work, drawing_id: str) -> KeptDrawing:
    drawing = work.lists.drawing(drawing_id)
    if drawing is None:
        raise NotFoundError
    return drawing
