"""The register of host teachers: the list, adding one, and one with all that can be done about them."""

import uuid
from collections.abc import Callable

from fastapi.responses import Response

from app.queries import hosts as query
from app.storage.hosts import Host
from app.storage.work import Work
from app.use_cases import keeping_hosts as act
from app.use_cases.keeping_hosts import ChangeHost, Post
from app.use_cases.keeping_proof import erase_words
from app.web.door import Pages
from app.web.host_form import LONGEST_ID, HostForm, changed_host
from app.web.typed import typed_day, typed_text
from app.web.visit import Here, Visit
from app.wording.hosts import LEVELS
from app.wording.sessions import in_words
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

pages = Pages()


@pages.get("/hosts", may="keep hosts")
def hosts(visit: Here) -> Response:
    """Hosts for whom sessions wait first, the longest wait on top."""
    with visit.store.reading(visit.school_id) as work:
        lines = query.host_list(work, visit.today, visit.school.time_zone, visit.language)
    return visit.show("hosts/hosts.html", lines=lines)


@pages.get("/hosts/new", may="keep hosts")
def new_host(visit: Here) -> Response:
    return _new(visit, HostForm(str(uuid.uuid4()), verified_on=visit.today.isoformat()), [], 200)


@pages.post("/hosts/new", may="keep hosts")
def add(visit: Here) -> Response:
    """Put a host on the register; the form as typed, with every reason, if it can't be."""
    form = HostForm.typed(visit.form)
    try:
        host = act.add_host(visit.store, visit.asker, form.host())
    except RefusedError as refusal:
        return _new(visit, form, visit.faults(refusal.faults), 422)
    return visit.go(f"/hosts/{host.id}", visit.say(N_("On the register. Trainees can choose them while eligible.")))


@pages.get("/hosts/{host_id}", may="keep hosts")
def one_host(visit: Here, host_id: str) -> Response:
    return _host(visit, host_id, None, [], 200)


@pages.post("/hosts/{host_id}", may="keep hosts")
def change(visit: Here, host_id: str) -> Response:
    """Change mail, site, level, eligibility or person, with a reason."""
    with visit.store.reading(visit.school_id) as work:
        before = _found(work, host_id)
    form = HostForm.typed(visit.form)
    try:
        request = ChangeHost(changed_host(form, before), form.reason, form.known)
        changed = act.change_host(visit.store, visit.asker, request, _post(visit))
    except RefusedError as refusal:
        return _host(visit, host_id, form, visit.faults(refusal.faults), 422)
    return visit.go(f"/hosts/{host_id}", visit.say(N_("Changed.") if changed else N_("Nothing was changed.")))


@pages.post("/hosts/{host_id}/end", may="keep hosts")
def end(visit: Here, host_id: str) -> Response:
    """End the eligibility; what waits can still be signed."""

    def kept() -> None:
        act.end_eligibility(visit.store, visit.asker, host_id, _last_day(visit), visit.typed("end-reason"))

    return _kept(visit, host_id, kept, N_("The eligibility is ended; what was signed stands."))


@pages.post("/hosts/{host_id}/pause", may="keep hosts")
def pause(visit: Here, host_id: str) -> Response:
    def kept() -> None:
        act.pause_host(visit.store, visit.asker, host_id, visit.typed("pause-reason"))

    return _kept(visit, host_id, kept, N_("Paused. They can still sign what waits."))


@pages.post("/hosts/{host_id}/resume", may="keep hosts")
def resume(visit: Here, host_id: str) -> Response:
    act.resume_host(visit.store, visit.asker, host_id)
    return visit.go(f"/hosts/{host_id}", visit.say(N_("Trainees are offered this host again.")))


@pages.post("/hosts/{host_id}/link", may="keep hosts")
def link(visit: Here, host_id: str) -> Response:
    """Send the link again."""

    def kept() -> None:
        request = typed_text(visit.form, "id")
        if not 0 < len(request) <= LONGEST_ID:
            raise RefusedError([Fault("no-id", N_("this form is damaged; open the page again"))])
        act.send_link(visit.store, visit.asker, host_id, request, _post(visit))

    return _kept(visit, host_id, kept, N_("The link is sent."))


@pages.post("/hosts/{host_id}/words", may="erase words")
def erase(visit: Here, host_id: str) -> Response:
    """Erase what the host wrote, when they ask for it."""
    with visit.store.reading(visit.school_id) as work:
        _found(work, host_id)
    erased = erase_words(visit.store, visit.asker, host_id)
    said = visit.language.ngettext("{number} text erased.", "{number} texts erased.", erased)
    return visit.go(f"/hosts/{host_id}", said)


def _kept(visit: Visit, host_id: str, keep: Callable[[], None], said: str) -> Response:
    try:
        keep()
    except RefusedError as refusal:
        return _host(visit, host_id, None, visit.faults(refusal.faults), 422)
    return visit.go(f"/hosts/{host_id}", visit.say(said))


def _last_day(visit: Visit):  # noqa: ANN202 - a day, or None where none was typed
    """The day as typed; the use case says so if there is none, together with all else."""
    return typed_day(typed_text(visit.form, "last"), "last", "", [])


def _new(visit: Visit, form: HostForm, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        choices = _choices(visit, work)
    return visit.show("hosts/new.html", status, form=form, faults=faults, choices=choices)


def _host(visit: Visit, host_id: str, form: HostForm | None, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        host = _found(work, host_id)
        overview = query.host_overview(work, host, visit.today, visit.school.time_zone, visit.language)
        choices = _choices(visit, work, host)
    return visit.show(
        "hosts/host.html",
        status,
        overview=overview,
        form=form or HostForm.of(host, len(overview.events)),
        changing=form is not None,
        faults=faults,
        choices=choices,
        typed=visit.typed,
        request_id=str(uuid.uuid4()),
    )


def _choices(visit: Visit, work: Work, host: Host | None = None) -> dict[str, list[tuple[str, str]]]:
    """What each list offers; a level or a person that a host has already stays on offer."""
    levels = dict.fromkeys([*LEVELS, host.level] if host else LEVELS)
    people = dict(query.people_on_offer(work))
    if host and host.person_id:
        people.setdefault(host.person_id, work.people.names()[host.person_id])
    choose, nobody = visit.say(N_("choose")), visit.say(N_("nobody of the school"))
    return {
        "level": [("", choose), *((level, in_words(level, LEVELS, visit.language)) for level in levels)],
        "person": [("", nobody), *people.items()],
    }


def _found(work: Work, host_id: str) -> Host:
    host = work.hosts.by_id(host_id)
    if host is None:
        raise NotFoundError
    return host


def _post(visit: Visit) -> Post:
    return Post(visit.settings.host_link_days, str(visit.request.base_url).rstrip("/"))
