"""Readiness: what is still lacking for the certificate, as a page and as a PDF, for the trainee and the director."""

import importlib

from fastapi.responses import Response

from app.queries import readiness as query
from app.queries.readiness import ReadinessOverview
from app.queries.transcript import transcript
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.web.door import Pages
from app.web.own_enrolment import own_enrolment
from app.web.visit import Here, Visit
from curriculum.faults import NotFoundError

pages = Pages()


@pages.get("/readiness", may="see own standing")
def own(visit: Here) -> Response:
    return _page(visit, _of_visitor(visit), "", "/my-certificates")


@pages.get("/readiness.pdf", may="see own standing")
def own_pdf(visit: Here) -> Response:
    return _pdf(visit, _of_visitor(visit))


@pages.get("/trainees/{enrolment_id}/readiness", may="see any standing")
def of_trainee(visit: Here, enrolment_id: str) -> Response:
    here = f"/trainees/{enrolment_id}"
    return _page(visit, _of(visit, enrolment_id), here, f"{here}/certificate")


@pages.get("/trainees/{enrolment_id}/readiness.pdf", may="see any standing")
def of_trainee_pdf(visit: Here, enrolment_id: str) -> Response:
    return _pdf(visit, _of(visit, enrolment_id))


@pages.get("/transcript.pdf", may="see own standing")
def own_transcript(visit: Here) -> Response:
    return _transcript(visit, own_enrolment(visit))


@pages.get("/trainees/{enrolment_id}/transcript.pdf", may="see any standing")
def transcript_of_trainee(visit: Here, enrolment_id: str) -> Response:
    with visit.store.reading(visit.school_id) as work:
        enrolment = work.enrolments.by_id(enrolment_id)
    if enrolment is None:
        raise NotFoundError
    return _transcript(visit, enrolment)


def _transcript(visit: Visit, enrolment: Enrolment) -> Response:
    """The record of a training, to take away or to give to an accrediting body."""
    with visit.store.reading(visit.school_id) as work:
        found = transcript(work, enrolment, visit.school.name, visit.now, visit.today, visit.language)
    printing = importlib.import_module("app.files.transcript_pdf")
    body = printing.transcript_pdf(
        found.name, found.programme, visit.school.name, found.says, found.sections, found.root, visit.now, found.made,
        visit.language,
    )  # fmt: skip
    headers = {"content-disposition": 'inline; filename="transcript.pdf"'}
    return Response(body, media_type="application/pdf", headers=headers)


def _page(visit: Visit, overview: ReadinessOverview, here: str, certificate: str) -> Response:
    return visit.show("readiness/readiness.html", overview=overview, here=here, certificate=certificate)


def _pdf(visit: Visit, overview: ReadinessOverview) -> Response:
    # Typesetting is loaded when a PDF is asked for: it would slow every start down.
    printing = importlib.import_module("app.files.readiness_pdf")
    body = printing.readiness_pdf(overview.report, overview.name, visit.school.name, visit.now, visit.language)
    headers = {"content-disposition": 'inline; filename="readiness.pdf"'}
    return Response(body, media_type="application/pdf", headers=headers)


def _of_visitor(visit: Visit) -> ReadinessOverview:
    with visit.store.reading(visit.school_id) as work:
        own_enrolments = work.enrolments.of_person(visit.person.id)
        if not own_enrolments:
            raise NotFoundError
        return _overview(visit, work, max(own_enrolments, key=lambda one: one.enrolled_on))


def _of(visit: Visit, enrolment_id: str) -> ReadinessOverview:
    with visit.store.reading(visit.school_id) as work:
        enrolment = work.enrolments.by_id(enrolment_id)
        if enrolment is None:
            raise NotFoundError
        return _overview(visit, work, enrolment)


def _overview(visit: Visit, work: Work, enrolment: Enrolment) -> ReadinessOverview:
    person = work.people.by_id(enrolment.person_id)
    return query.readiness_overview(work, enrolment, person.name, visit.today, visit.language)
