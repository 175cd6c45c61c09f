"""Checking a certificate, for anybody: by its number, by the code on paper, or by its file."""

import json

from fastapi.responses import Response

from app.files.credentials import Sent, compared, sent_certificate
from app.permissions import ANYONE
from app.queries.certificates import Life, found
from app.queries.certificates_shown import certificate_lines
from app.web.door import Pages
from app.web.public_school import visit_public
from app.web.visit import Here, Visit
from app.wording.certificates import NO_LICENCE
from curriculum.faults import N_, NotFoundError

pages = Pages()
UNKNOWN = N_("No certificate of this school has this number and code. Compare them with the paper; O is 0, I is 1.")
ALTERED = N_(
    "This file is not what the school signed. Something in it was changed; what the school says of this number is below."
)
SAME = N_("This file is what the school signed.")
EVERYBODY = {"access-control-allow-origin": "*", "content-disposition": 'inline; filename="certificate.json"'}
NO_FILE = N_("choose the file of a certificate, or type its number with its code")


@pages.get("/verify/{slug}", may=ANYONE)
def ask(visit: Here, slug: str) -> Response:
    visit_public(visit, slug)
    return _form(visit, "", "", 200)


@pages.post("/verify/{slug}", may=ANYONE)
def check(visit: Here, slug: str) -> Response:
    """By a number as typed, or by a file, which is compared with what was signed: nothing that was sent is worked out."""
    visit_public(visit, slug)
    _, content = visit.sent_file("file")
    typed = visit.typed("number")
    sent = sent_certificate(content) if content else None
    if content and sent is None:
        return _form(visit, typed, visit.say(N_("This is no certificate's file.")), 422)
    if not content and not typed.strip():
        return _form(visit, typed, visit.say(NO_FILE), 422)
    return _answer(visit, sent.written if sent else typed, sent)


@pages.get("/verify/{slug}/{written}", may=ANYONE)
def known(visit: Here, slug: str, written: str) -> Response:
    """Where the code on paper leads."""
    visit_public(visit, slug)
    return _answer(visit, written, None)


@pages.get("/verify/{slug}/{written}/credential.json", may=ANYONE)
def credential(visit: Here, slug: str, written: str) -> Response:
    return _file(_life(visit, slug, written).signed.plain)


@pages.get("/verify/{slug}/{written}/credential-with-results.json", may=ANYONE)
def credential_with_results(visit: Here, slug: str, written: str) -> Response:
    """Only while its holder shows them."""
    life = _life(visit, slug, written)
    if not life.shows_results:
        raise NotFoundError
    return _file(life.signed.detailed)


def _life(visit: Visit, slug: str, written: str) -> Life:
    visit_public(visit, slug)
    with visit.store.reading(visit.school_id) as work:
        life = found(work, written, visit.now)
    if life is None:
        raise NotFoundError
    return life


def _file(text: str) -> Response:
    # Anybody's page may read it: it is public for whoever has its address.
    return Response(text, media_type="application/vc+ld+json", headers=EVERYBODY)


def _answer(visit: Visit, typed: str, sent: Sent | None) -> Response:
    with visit.store.reading(visit.school_id) as work:
        life = found(work, typed, visit.now)
        line = certificate_lines(work, [life], visit.language)[0] if life else None
    if life is None:
        return _form(visit, typed, visit.say(UNKNOWN), 404)
    signed = [json.loads(text) for step in life.steps for text in (step.plain, step.detailed) if text]
    same = compared(sent, signed) if sent else None
    detailed = json.loads(life.signed.detailed)["credentialSubject"] if life.shows_results else None
    said = json.loads(life.signed.plain)
    return visit.show(
        "verify/answer.html",
        line=line, life=life, said=said, detailed=detailed, caution=visit.say(NO_LICENCE),
        address=said["id"].removesuffix("/credential.json").removeprefix(visit.settings.public_address),
        about_file=None if same is None else visit.say(SAME if same else ALTERED), same=same,
    )  # fmt: skip


def _form(visit: Visit, typed: str, said: str, status: int) -> Response:
    faults = [{"field": "number", "text": said}] if said else []
    return visit.show("verify/ask.html", status, typed=typed, faults=faults)
