"""One's own certificates: to take away, to show with or without results, to give up."""

import json

from fastapi.responses import Response

from app.queries.certificates import Life, life_of, lives_of
from app.queries.certificates_shown import certificate_lines, life_shown
from app.storage.work import Work
from app.use_cases.certifying import TakeStep, of_own, signing_of, take_step
from app.web.certificate_file import certificate_pdf
from app.web.door import Pages
from app.web.visit import Here, Visit
from app.wording.certificates import NO_LICENCE
from curriculum.faults import N_, RefusedError

pages = Pages()
STEPS = {
    "shows-results": N_("Whoever checks it can read your results now."),
    "hides-results": N_("Nobody who checks it can read your results now."),
    "given-up": N_("Given up. Whoever checks it is told so."),
}


@pages.get("/my-certificates", may="hold a certificate")
def own(visit: Here) -> Response:
    with visit.store.reading(visit.school_id) as work:
        kept = [
            one
            for enrolment in work.enrolments.of_person(visit.person.id)
            for one in work.certificates.of_enrolment(enrolment.id)
        ]
        lines = certificate_lines(work, lives_of(work, kept, visit.now), visit.language)
    return visit.show("my_certificates/list.html", lines=lines)


@pages.get("/my-certificates/{certificate_id}", may="hold a certificate")
def one(visit: Here, certificate_id: str) -> Response:
    return _show(visit, certificate_id, [], 200)


@pages.get("/my-certificates/{certificate_id}/certificate.pdf", may="hold a certificate")
def as_pdf(visit: Here, certificate_id: str) -> Response:
    with visit.store.reading(visit.school_id) as work:
        life = _own(visit, work, certificate_id)
    return certificate_pdf(visit, life)


@pages.post("/my-certificates/{certificate_id}", may="hold a certificate")
def step(visit: Here, certificate_id: str) -> Response:
    """Show results or not, or give it up; giving up needs a tick, since it has no way back."""
    chosen = visit.typed("step")
    with visit.store.reading(visit.school_id) as work:
        _own(visit, work, certificate_id)
    if chosen not in STEPS or (chosen == "given-up" and visit.typed("sure") != "yes"):
        sentence = visit.say(N_("tick the box if you mean it: there is no way back"))
        return _show(visit, certificate_id, [("sure", sentence)], 422)
    try:
        take_step(visit.store, visit.asker, signing_of(visit.settings), TakeStep(certificate_id, chosen))
    except RefusedError as refusal:
        return _show(visit, certificate_id, [(one.field, one.text) for one in visit.faults(refusal.faults)], 422)
    return visit.go(f"/my-certificates/{certificate_id}", visit.say(STEPS[chosen]))


def _own(visit: Visit, work: Work, certificate_id: str) -> Life:
    return life_of(work, of_own(work, visit.person.id, certificate_id), visit.now)


def _show(visit: Visit, certificate_id: str, faults: list[tuple[str, str]], status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        life = _own(visit, work, certificate_id)
        shown = life_shown(work, life, visit.school.time_zone, visit.language)
    return visit.show(
        "my_certificates/certificate.html", status,
        life=life, shown=shown, address=json.loads(life.signed.plain)["id"].removesuffix("/credential.json"),
        faults=[{"field": field, "text": text} for field, text in faults], caution=visit.say(NO_LICENCE),
        results=json.loads(life.signed.detailed)["credentialSubject"]["achievement"].get("resultDescription", ()),
    )  # fmt: skip
