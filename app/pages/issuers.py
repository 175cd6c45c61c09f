"""What is public of a school that issues: its keys, what it revoked, what its certificates ask for."""

import json

from fastapi.responses import Response

from app.permissions import ANYONE
from app.queries.criteria import criteria_of
from app.use_cases.certifying import signing_of
from app.use_cases.issuer_files import TTL_SECONDS, public_files
from app.web.door import Pages
from app.web.public_school import visit_public
from app.web.visit import Here, Visit
from curriculum.faults import NotFoundError

pages = Pages()
EVERYBODY = {"access-control-allow-origin": "*", "cache-control": f"public, max-age={TTL_SECONDS}"}


@pages.get("/issuers/{slug}", may=ANYONE)
def issuer(visit: Here, slug: str) -> Response:
    """The controller document."""
    return _public(visit, slug, "issuer")


@pages.get("/issuers/{slug}/revoked", may=ANYONE)
def revoked(visit: Here, slug: str) -> Response:
    """The signed list of what is revoked."""
    return _public(visit, slug, "revoked")


@pages.get("/issuers/{slug}/achievements/{edition_id}", may=ANYONE)
def achievement(visit: Here, slug: str, edition_id: str) -> Response:
    """What a certificate of this edition asks for."""
    visit_public(visit, slug)
    with visit.store.reading(visit.school_id) as work:
        edition = work.editions.by_id(edition_id)
    if edition is None or edition.kind != "readiness" or criteria_of(edition).certificate is None:
        raise NotFoundError
    return visit.show("verify/achievement.html", criteria=criteria_of(edition))


def _public(visit: Visit, slug: str, name: str) -> Response:
    visit_public(visit, slug)
    with visit.store.reading(visit.school_id) as work:
        files = public_files(work, visit.school, signing_of(visit.settings), visit.now)
    if name not in files:
        raise NotFoundError
    return Response(json.dumps(files[name]), media_type="application/json", headers=EVERYBODY)
