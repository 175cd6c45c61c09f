"""Certificates for the school: the decision on one trainee, every certificate, and what is done with one."""

import json
from collections.abc import Callable
from datetime import UTC, datetime, time

from fastapi.responses import Response

from app.queries.certificates import candidate_of, life_of, lives_of, open_decisions
from app.queries.certificates_shown import certificate_lines, life_shown, standing_decisions
from app.use_cases.certifying import TakeStep, change_key, decide, signing_of, take_step
from app.web.certificate_file import certificate_pdf
from app.web.door import Pages
from app.web.typed import typed_day, typed_text, whole_number
from app.web.visit import Here, Visit
from app.wording.dates import day_text
from app.wording.readiness import answer
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()
STEPS = ("extended", "suspended", "resumed", "notice", "notice-lifted", "revoked")


@pages.get("/certificates", may="certify")
def certificates(visit: Here) -> Response:
    with visit.store.reading(visit.school_id) as work:
        lines = certificate_lines(work, lives_of(work, work.certificates.all(), visit.now), visit.language)
        keys = work.certificates.keys()
    since = day_text(keys[-1].made_at.date(), visit.locale) if keys else ""
    return visit.show("certificates/certificates.html", lines=lines, keys=keys, signs_since=since)


@pages.post("/certificates/keys", may="certify")
def new_signing_key(visit: Here) -> Response:
    change_key(visit.store, visit.asker, signing_of(visit.settings))
    return visit.go("/certificates", visit.say(N_("A new key signs from now on. What older keys signed stays good.")))


@pages.get("/trainees/{enrolment_id}/certificate", may="certify")
def decision(visit: Here, enrolment_id: str) -> Response:
    return _decision(visit, enrolment_id, [], 200)


@pages.post("/trainees/{enrolment_id}/certificate", may="certify")
def decided(visit: Here, enrolment_id: str) -> Response:
    """Certify, or say not yet, with the reason."""
    chosen, words = visit.typed("decision"), typed_text(visit.form, "words")
    try:
        made = decide(visit.store, visit.asker, signing_of(visit.settings), enrolment_id, chosen, words)
    except RefusedError as refusal:
        return _decision(visit, enrolment_id, visit.faults(refusal.faults), 422)
    if made:
        return visit.go(f"/certificates/{made}", visit.say(N_("Issued. Its holder is told by mail.")))
    said = N_("Kept. Somebody else has to confirm it.") if chosen == "certify" else N_("Kept.")
    return visit.go(visit.path, visit.say(said))


@pages.get("/certificates/{certificate_id}", may="certify")
def certificate(visit: Here, certificate_id: str) -> Response:
    return _certificate(visit, certificate_id, [], 200)


@pages.post("/certificates/{certificate_id}", may="certify")
def step(visit: Here, certificate_id: str) -> Response:
    """Extend, suspend, give notice, revoke."""
    chosen, words = visit.typed("step"), typed_text(visit.form, "words")

    def act() -> None:
        if chosen not in STEPS:
            raise NotFoundError
        faults: list = []
        day = typed_day(visit.typed("until"), "until", N_("choose the day"), faults) if chosen == "extended" else None
        if faults:
            raise RefusedError(faults)
        until = datetime.combine(day, time(23, 59, 59), UTC) if day else None
        asked = TakeStep(certificate_id, chosen, words, until, whole_number(visit.typed("known")))
        take_step(visit.store, visit.asker, signing_of(visit.settings), asked)

    return _done(visit, certificate_id, act)


@pages.get("/certificates/{certificate_id}/certificate.pdf", may="certify")
def as_pdf(visit: Here, certificate_id: str) -> Response:
    with visit.store.reading(visit.school_id) as work:
        kept = work.certificates.by_id(certificate_id)
        if kept is None:
            raise NotFoundError
        life = life_of(work, kept, visit.now)
    return certificate_pdf(visit, life)


def _done(visit: Visit, certificate_id: str, act: Callable[[], None]) -> Response:
    try:
        act()
    except RefusedError as refusal:
        return _certificate(visit, certificate_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/certificates/{certificate_id}", visit.say(N_("Done. Its holder is told by mail.")))


def _decision(visit: Visit, enrolment_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        enrolment = work.enrolments.by_id(enrolment_id)
        if enrolment is None:
            raise NotFoundError
        candidate = candidate_of(work, enrolment, visit.today)
        name = work.people.by_id(enrolment.person_id).name
        lives = lives_of(work, work.certificates.of_enrolment(enrolment_id), visit.now)
        lines = certificate_lines(work, lives, visit.language)
        decisions = standing_decisions(work, enrolment_id, visit.school.time_zone, visit.language)
        waiting = bool(open_decisions(work, enrolment_id))
    return visit.show(
        "certificates/decision.html", status,
        name=name, enrolment_id=enrolment_id, answer=answer(candidate.report, visit.language), ready=candidate.report.ready,
        terms=candidate.terms, lines=lines, decisions=decisions, waiting=waiting, faults=faults,
    )  # fmt: skip


def _certificate(visit: Visit, certificate_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        kept = work.certificates.by_id(certificate_id)
        if kept is None:
            raise NotFoundError
        life = life_of(work, kept, visit.now)
        shown = life_shown(work, life, visit.school.time_zone, visit.language)
    address = json.loads(life.signed.plain)["id"].removesuffix("/credential.json")
    return visit.show("certificates/certificate.html", status, shown=shown, life=life, address=address, faults=faults)
