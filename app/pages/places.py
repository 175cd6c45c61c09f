"""Finding a lesson: the hosts who have a place on a day for what a trainee still needs; the host answers under their link."""

import uuid

from fastapi.responses import Response

from app.permissions import LINK_HOLDER
from app.queries import places as query
from app.storage.hosts import Host
from app.storage.work import Work
from app.use_cases import asking_for_places as act
from app.web.door import Pages
from app.web.finder_form import FinderForm
from app.web.link_holder import ended, host_asking, host_of, post_of, refuse_foreign_form
from app.web.own_enrolment import own_enrolment
from app.web.typed import typed_text
from app.web.visit import Here, Visit
from app.wording.sessions import ACTIVITIES, APPARATUS, LEVELS
from curriculum.faults import N_, Fault, RefusedError

pages = Pages()
LONGEST_ID = 36


@pages.get("/host-teachers", may="log own hours")
def find(visit: Here) -> Response:
    """Who has a place, for what is asked for in the address."""
    query_of = {name: [value] for name, value in visit.request.query_params.items()}
    return _find(visit, FinderForm.typed(query_of), [], 200)


@pages.post("/host-teachers/{host_id}/places", may="log own hours")
def ask(visit: Here, host_id: str) -> Response:
    """Ask a host for a place."""
    form, id, faults = FinderForm.typed(visit.form), typed_text(visit.form, "id"), list[Fault]()
    if not 0 < len(id) <= LONGEST_ID:
        faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
    own_enrolment(visit)
    place = form.place(id, host_id, visit.person.id, visit.now, faults)
    try:
        if faults or place is None:
            raise RefusedError(faults)
        act.ask_for_place(visit.store, visit.asker, place, post_of(visit))
    except RefusedError as refusal:
        return _find(visit, form, list(refusal.faults), 422)
    visit.ask("mail")
    return visit.go(
        "/host-teachers", visit.say(N_("Asked. You get a mail when they have answered; it stands here too."))
    )


@pages.post("/places/{place_id}/give-back", may="log own hours")
def give_back(visit: Here, place_id: str) -> Response:
    act.give_back(visit.store, visit.asker, place_id, post_of(visit))
    visit.ask("mail")
    return visit.go("/host-teachers", visit.say(N_("Given back.")))


@pages.get("/h/{link}/places", may=LINK_HOLDER)
def of_host(visit: Here, link: str) -> Response:
    """Who asks this host for a place, and who has one."""
    host = host_of(visit, link)
    return _of_host(visit, link, host, [], 200) if host else ended(visit, link)


@pages.post("/h/{link}/places/{place_id}", may=LINK_HOLDER)
def answer(visit: Here, link: str, place_id: str) -> Response:
    """Take or decline."""
    host, take = host_of(visit, link), visit.typed("answer") == "take"
    if host is None:
        return ended(visit, link)
    refuse_foreign_form(visit)
    try:
        act.answer_place(visit.store, host_asking(visit, host), host, place_id, take=take)
    except RefusedError as refusal:
        return _of_host(visit, link, host, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    said = N_("The place is given. A mail tells the trainee.") if take else N_("Declined. A mail tells the trainee.")
    return visit.go(f"/h/{link}/places", visit.say(said))


def _find(visit: Visit, typed: FinderForm, faults: list[Fault], status: int) -> Response:
    enrolment = own_enrolment(visit)
    with visit.store.reading(visit.school_id) as work:
        needed = query.needs_of(work, enrolment, visit.today)
        form = typed.filled(needed, work.ledger.of_enrolment(enrolment.id), visit.today)
        unread: list[Fault] = []
        wish = form.place("", "", visit.person.id, visit.now, unread)
        found = _offers(visit, work, enrolment, wish, unread)
        own = query.places_of_trainee(work, visit.person.id, visit.today, visit.language)
    return visit.show(
        "places/find.html",
        422 if unread and status == 200 else status,
        form=form,
        faults=visit.faults(tuple(faults or unread)),
        offers=found,
        needs=query.needs_shown(needed, visit.language),
        own=own,
        choices=_choices(visit),
        new_id=lambda: str(uuid.uuid4()),
    )


def _offers(visit: Visit, work: Work, enrolment, wish, unread: list[Fault]) -> list[query.Offer]:  # noqa: ANN001
    if wish is not None and wish.end <= wish.start:
        unread.append(Fault("end-before-start", N_("the end is not after the start"), field="end"))
    if unread:
        return []
    return query.offers(work, enrolment, wish, visit.today, visit.school.time_zone, visit.language)


def _choices(visit: Visit) -> dict[str, list[tuple[str, str]]]:
    any_ = ("", visit.say(N_("any")))
    words = {"apparatus": APPARATUS, "level": LEVELS}
    offered = {name: [any_, *((key, visit.say(text)) for key, text in some.items())] for name, some in words.items()}
    return offered | {"activity": [(key, visit.say(text)) for key, text in ACTIVITIES.items()]}


def _of_host(visit: Visit, link: str, host: Host, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        places = query.places_of_host(work, host, visit.today, visit.language)
    return visit.show("places/of_host.html", status, host=host, places=places, faults=faults, back=f"/h/{link}")
