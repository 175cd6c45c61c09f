"""On what terms a host takes trainees, in their own hand under the private link; and a trainee who asks to be taken."""

from collections.abc import Callable

from fastapi.responses import Response

from app.permissions import LINK_HOLDER
from app.queries.host_terms import trainees_of
from app.storage.hosts import Host
from app.use_cases import keeping_terms as act
from app.web.door import Pages
from app.web.link_holder import ended, host_asking, host_of, post_of, refuse_foreign_form
from app.web.typed import typed_text, whole_number
from app.web.visit import Here, Visit
from curriculum.faults import N_, RefusedError

pages = Pages()


@pages.get("/h/{link}/terms", may=LINK_HOLDER)
def terms(visit: Here, link: str) -> Response:
    host = host_of(visit, link)
    return _show(visit, link, host, [], 200) if host else ended(visit, link)


@pages.post("/h/{link}/terms", may=LINK_HOLDER)
def set_terms(visit: Here, link: str) -> Response:
    """How many observers at once, and whether to be asked first."""

    def done(host: Host) -> None:
        typed = typed_text(visit.form, "observers")
        most = whole_number(typed, 0) if typed else None
        act.set_terms(visit.store, host_asking(visit, host), host, most, ask_first=bool(visit.typed("ask_first")))

    return _done(visit, link, done, N_("Kept. Trainees see it where they choose you."))


@pages.post("/h/{link}/pause", may=LINK_HOLDER)
def pause(visit: Here, link: str) -> Response:
    def done(host: Host) -> None:
        act.pause_own(visit.store, host_asking(visit, host), host, visit.typed("pause-reason"))

    return _done(visit, link, done, N_("Paused. No trainee is offered you; what waits can still be signed."))


@pages.post("/h/{link}/resume", may=LINK_HOLDER)
def resume(visit: Here, link: str) -> Response:
    def done(host: Host) -> None:
        act.resume_own(visit.store, host_asking(visit, host), host)

    return _done(visit, link, done, N_("Welcome back. Trainees are offered you again."))


@pages.post("/h/{link}/trainees/{person_id}", may=LINK_HOLDER)
def take_or_decline(visit: Here, link: str, person_id: str) -> Response:
    take = visit.typed("answer") == "take"

    def done(host: Host) -> None:
        act.take_or_decline(visit.store, host_asking(visit, host), host, person_id, take=take)

    said = N_("Taken. A mail tells them so.") if take else N_("Declined from tomorrow on. A mail tells them so.")
    return _done(visit, link, done, said)


@pages.post("/host-teachers/{host_id}/ask", may="log own hours")
def ask(visit: Here, host_id: str) -> Response:
    """Ask a host to be taken."""
    act.ask_to_come(visit.store, visit.asker, host_id, post_of(visit))
    visit.ask("mail")
    return visit.go("/host-teachers", visit.say(N_("Asked. You get a mail when they have answered.")))


def _done(visit: Visit, link: str, do: Callable[[Host], None], said: str) -> Response:
    host = host_of(visit, link)
    if host is None:
        return ended(visit, link)
    refuse_foreign_form(visit)
    try:
        do(host)
    except RefusedError as refusal:
        return _show(visit, link, host, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go(f"/h/{link}/terms", visit.say(said))


def _show(visit: Visit, link: str, host: Host, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        stands, own = work.host_terms.of(host.id), act.paused_by_self(work, host)
        known = act.known_trainees(work, host)
        trainees = trainees_of(work, host, known, visit.school.time_zone, visit.language)
    most = str(stands.observers_most) if stands and stands.observers_most else ""
    return visit.show(
        "host_terms/terms.html",
        status,
        host=host,
        observers=typed_text(visit.form, "observers") if faults else most,
        ask_first=bool(visit.typed("ask_first")) if faults else bool(stands and stands.ask_first),
        own_pause=own,
        trainees=trainees,
        faults=faults,
        back=f"/h/{link}",
    )
