"""The proof: anybody lays a receipt or a root beside the record and reads whether it holds."""

from fastapi.responses import Response

from app.files.receipts import read_held, write_root
from app.permissions import ANYONE, DIRECTOR
from app.queries.proof import continuation, current_root, receipt_of
from app.queries.receipts import Checked, checked
from app.use_cases.keeping_proof import erase_words
from app.web.door import Pages
from app.web.public_school import school_named
from app.web.receipt_file import continuation_file, receipt_file
from app.web.typed import whole_number
from app.web.visit import Here, Visit
from assessments.records.receipt import Root
from curriculum.faults import NotFoundError, RefusedError

pages = Pages()


@pages.get("/proof", may=ANYONE)
def proof(visit: Here) -> Response:
    """Where a receipt is given; a director also sees the root as it is now."""
    return _show(visit, None, [], 200)


@pages.post("/proof", may=ANYONE)
def check(visit: Here) -> Response:
    """Whether what was given holds; nothing of it is kept."""
    try:
        found, slug = _checked(visit)
        return _show(visit, found, [], 200, slug)
    except RefusedError as refusal:
        return _show(visit, None, visit.faults(refusal.faults), 422)


@pages.get("/proof/{slug}/{size}.json", may=ANYONE)
def continued(visit: Here, slug: str, size: str) -> Response:
    """The proof that the record of today continues that of so many events; it says nothing of what they are."""
    with visit.store.reading(school_named(visit, slug).id) as work:
        return continuation_file(continuation(work, whole_number(size, 10**9)))


@pages.get("/hours/sessions/{session_id}/receipt.json", may="see own standing")
def own_receipt(visit: Here, session_id: str) -> Response:
    """The receipt of the host's signature under one's own session as it stands, to keep."""
    with visit.store.reading(visit.school_id) as work:
        own = {one.id for one in work.enrolments.of_person(visit.person.id)}
        if work.ledger.enrolment_of(session_id) not in own:
            raise NotFoundError
        found = receipt_of(work, session_id, work.ledger.now(session_id).version)
    return receipt_file(found, session_id)


@pages.post("/trainees/{enrolment_id}/record/words", may="erase words")
def erase(visit: Here, enrolment_id: str) -> Response:
    """Erase what a trainee wrote in their own words, on their request; every proof stays whole."""
    with visit.store.reading(visit.school_id) as work:
        enrolment = work.enrolments.by_id(enrolment_id)
    if enrolment is None:
        raise NotFoundError
    erased = erase_words(visit.store, visit.asker, enrolment.person_id)
    said = visit.language.ngettext("{number} text erased.", "{number} texts erased.", erased)
    return visit.go(f"/trainees/{enrolment_id}/record", said)


def _checked(visit: Visit) -> tuple[Checked, str]:
    held = read_held(visit.typed("file") or visit.typed("receipt"))
    top = held if isinstance(held, Root) else held.root
    school = visit.store.school(top.school)
    if school is None:
        return checked(None, "", held, visit.language), ""
    with visit.store.reading(school.id) as work:
        return checked(work, school.name, held, visit.language), school.slug


def _show(visit: Visit, found: Checked | None, faults: list, status: int, slug: str = "") -> Response:
    root = ""
    if DIRECTOR in visit.roles:
        with visit.store.reading(visit.school_id) as work:
            root = write_root(current_root(work))
    values = {"found": found, "faults": faults, "typed": visit.typed("receipt"), "root": root, "slug": slug}
    return visit.show("proof/proof.html", status, **values)
