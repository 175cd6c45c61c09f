"""Who holds a private link: the host teacher it belongs to, without an account."""

from dataclasses import replace

from fastapi.responses import Response

from app.storage.hosts import Host
from app.use_cases.asker import Asker
from app.use_cases.keeping_hosts import Post
from app.web.visit import Visit, token_hash
from curriculum.faults import N_, NotAllowedError


def host_of(visit: Visit, link: str) -> Host | None:
    """The host whose link this is; None once it has ended, and where there never was one. The visit is the link's then."""
    school_id, _, token = link.partition(".")
    visit.person, visit.roles, visit.token = None, frozenset(), token
    visit.school = visit.store.school(school_id)
    if visit.school is None or not token:
        return None
    with visit.store.reading(school_id) as work:
        return work.hosts.by_link(token_hash(token), visit.now)


def refuse_foreign_form(visit: Visit) -> None:
    """A form under a private link carries that link's own token."""
    if not visit.form_is_own:
        raise NotAllowedError(N_("This form was open too long. Open the link from your mail again."))


def post_of(visit: Visit) -> Post:
    """How mail to a host begins its links: never with what a request says of its own address, which anybody can write."""
    return Post(visit.settings.host_link_days, visit.settings.public_address)


def school_asking(visit: Visit) -> Asker:
    """The school itself, for mail that a link's holder has it write: in its own language."""
    language = visit.request.app.state.languages.of(visit.school.locale)
    return Asker(visit.school, "", visit.school.name, visit.now, language)


def host_asking(visit: Visit, host: Host) -> Asker:
    """The host, as the record names them."""
    return replace(school_asking(visit), person_id=f"host:{host.id}", name=host.name)


def ended(visit: Visit, link: str) -> Response:
    """What is shown for a link that does not open anything (any more)."""
    return visit.show("host/expired.html", 410, renew=f"/h/{link}/renew")
