"""Calibration: described performances scored alone, how near one came, and the whole panel for the director."""

import uuid

from fastapi.responses import Response

from app.queries.calibration import own_calibration, performance_shown
from app.queries.calibration_panel import calibration_panel
from app.use_cases.calibration import found_reference, score_performance
from app.web.door import Pages
from app.web.visit import Here, Visit
from curriculum.faults import N_, RefusedError

pages = Pages()


@pages.get("/calibration", may="calibrate")
def own(visit: Here) -> Response:
    """How the examiner stands, and what there is to score."""
    with visit.store.reading(visit.school_id) as work:
        found = own_calibration(work, visit.person.id, visit.today, visit.school.time_zone, visit.language)
    return visit.show("calibration/own.html", practicals=found)


@pages.get("/calibration/{practical}/{performance_id}", may="calibrate")
def performance(visit: Here, practical: str, performance_id: str) -> Response:
    """The description with its form; once it is scored, how near that came."""
    return _performance(visit, practical, performance_id, [], 200)


@pages.post("/calibration/{practical}/{performance_id}", may="calibrate")
def send(visit: Here, practical: str, performance_id: str) -> Response:
    """Keep the levels for good; pressed twice they are kept once."""
    levels = {name: visit.typed(name) for name in visit.form if name.startswith("level.")}
    try:
        given = (visit.typed("id"), practical, performance_id, levels, visit.typed("note"))
        score_performance(visit.store, visit.asker, *given)
    except RefusedError as refusal:
        return _performance(visit, practical, performance_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/calibration/{practical}/{performance_id}", visit.say(N_("Your scores are kept.")))


@pages.get("/calibrations", may="set exams")
def panel(visit: Here) -> Response:
    """Every examiner by practical, and references still to be set."""
    return _panel(visit, [], 200)


@pages.post("/calibrations/{practical}/{performance_id}", may="set exams")
def set_reference(visit: Here, practical: str, performance_id: str) -> Response:
    """Make what the founding panel scored the reference."""
    try:
        found_reference(visit.store, visit.asker, practical, performance_id)
    except RefusedError as refusal:
        return _panel(visit, visit.faults(refusal.faults), 422)
    return visit.go("/calibrations", visit.say(N_("The reference is set by the founding panel.")))


def _performance(visit: Visit, practical: str, performance_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        zone = visit.school.time_zone
        shown = performance_shown(work, practical, performance_id, visit.person.id, visit.today, zone, visit.language)
    id = visit.typed("id") or str(uuid.uuid4())
    return visit.show("calibration/performance.html", status, shown=shown, faults=faults, typed=visit.typed, id=id)


def _panel(visit: Visit, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        found = calibration_panel(work, visit.today, visit.school.time_zone, visit.language)
    return visit.show("calibration/panel.html", status, practicals=found, faults=faults)
