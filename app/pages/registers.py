"""Registers of taught modules, room by room: the form, and the newest ones."""

import uuid

from fastapi.responses import Response

from app.queries.registers import modules_of, registers_shown, trainees_of
from app.use_cases.keeping_registers import register_room
from app.web.door import Pages
from app.web.register_form import RegisterForm
from app.web.visit import Here, Visit
from app.wording.registers import MARKS
from app.wording.sessions import ACTIVITIES
from curriculum.faults import N_, RefusedError

pages = Pages()


@pages.get("/registers", may="accept hours")
def registers(visit: Here) -> Response:
    return _show(visit, RegisterForm(str(uuid.uuid4()), day=visit.today.isoformat()), [], 200)


@pages.post("/registers", may="accept hours")
def register(visit: Here) -> Response:
    """Keep a room's register, and credit whoever was there."""
    form = RegisterForm.typed(visit.form)
    try:
        register_room(visit.store, visit.asker, form.room())
    except RefusedError as refusal:
        return _show(visit, form, visit.faults(refusal.faults), 422)
    return visit.go("/registers", visit.say(N_("Registered. The hours of whoever was there are on record.")))


def _show(visit: Visit, form: RegisterForm, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        modules = modules_of(work)
        trainees = trainees_of(work)
        rooms = registers_shown(work, modules, visit.language)
    return visit.show(
        "registers/registers.html",
        status,
        form=form,
        faults=faults,
        trainees=trainees,
        rooms=rooms,
        modules=[("", visit.say(N_("choose"))), *modules.items()],
        activities=[(value, visit.say(words)) for value, words in ACTIVITIES.items()],
        marks=[("", visit.say(N_("not of this group"))), *((kind, visit.say(words)) for kind, words in MARKS.items())],
    )
