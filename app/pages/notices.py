"""Safety notices: the director issues and ends them, everybody reads them."""

from urllib.parse import urlsplit

from fastapi.responses import Response

from app.queries.notices import notice_lines
from app.queries.repertoire import subjects_of
from app.use_cases import notices as act
from app.web.door import Pages
from app.web.visit import Here, Visit
from curriculum.faults import N_, RefusedError

pages = Pages()


@pages.get("/notices", may="issue safety notices")
def notices(visit: Here) -> Response:
    """What stands, who has still to read it, and the form for a new one."""
    return _notices(visit, [], 200)


@pages.post("/notices", may="issue safety notices")
def issue(visit: Here) -> Response:
    try:
        act.issue_notice(visit.store, visit.asker, visit.typed("about"), visit.typed("text"))
    except RefusedError as refusal:
        return _notices(visit, visit.faults(refusal.faults), 422)
    return visit.go("/notices", visit.say(N_("Issued. It stands on every edition's pages now.")))


@pages.post("/notices/{notice_id}/end", may="issue safety notices")
def end(visit: Here, notice_id: str) -> Response:
    try:
        act.end_notice(visit.store, visit.asker, notice_id, visit.typed(f"reason-{notice_id}"))
    except RefusedError as refusal:
        return _notices(visit, visit.faults(refusal.faults), 422)
    return visit.go("/notices", visit.say(N_("The notice is ended; that it stood stays on record.")))


@pages.post("/notices/{notice_id}/read", may="read safety notices")
def read(visit: Here, notice_id: str) -> Response:
    """Back to where it was read."""
    act.read_notice(visit.store, visit.asker, notice_id)
    return visit.go(_local(visit.typed("back")))


def _notices(visit: Visit, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        lines = notice_lines(work, visit.school.time_zone, visit.language)
        subjects = [("", visit.say(N_("everything"))), *subjects_of(work, visit.language).items()]
    return visit.show("notices/notices.html", status, lines=lines, subjects=subjects, faults=faults, typed=visit.typed)


def _local(address: str) -> str:
    """A path of this installation, whatever was sent."""
    path = urlsplit(address).path
    return path if path.startswith("/") and not path.startswith("//") and "\\" not in path else "/"
