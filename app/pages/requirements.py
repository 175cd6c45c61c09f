"""Requirement sets in plain words: for the director each edition and draft, for a trainee the set they are on."""

from fastapi.responses import Response

from app.files.editions import document_faults
from app.files.requirements import requirements_from_text
from app.queries import requirements as query
from app.queries.standing import requirements_of
from app.web.door import Pages
from app.web.own_enrolment import own_enrolment
from app.web.visit import Here
from app.wording.faults import fault_line
from curriculum.faults import N_, NotFoundError

pages = Pages()


@pages.get("/requirements", may="read requirement sets")
def requirement_sets(visit: Here) -> Response:
    """Every published set, the newest first."""
    with visit.store.reading(visit.school_id) as work:
        lines = query.set_list(work, visit.language)
    return visit.show("requirements/sets.html", lines=lines)


@pages.get("/requirements/{edition_id}", may="read requirement sets")
def one_set(visit: Here, edition_id: str) -> Response:
    """A published set, and who is on it."""
    with visit.store.reading(visit.school_id) as work:
        edition = work.editions.by_id(edition_id)
        if edition is None or edition.kind != "requirements":
            raise NotFoundError
        overview = query.set_overview(work, requirements_of(edition), visit.language)
        on_it = query.who_is_on(work, edition)
    return visit.show(
        "requirements/set.html", overview=overview, on_it=on_it, back=(f"/editions/{edition_id}", N_("The edition"))
    )


@pages.get("/drafts/{draft_id}/words", may="write editions")
def draft_in_words(visit: Here, draft_id: str) -> Response:
    """A draft of a set as it would read; its faults where it can't be read yet."""
    with visit.store.reading(visit.school_id) as work:
        draft = work.editions.draft(draft_id)
        if draft is None or draft.kind != "requirements":
            raise NotFoundError
        faults = document_faults(draft.kind, draft.documents)
        if faults:
            lines = [fault_line(fault, visit.language) for fault in faults]
            return visit.show("requirements/unread.html", draft_id=draft_id, lines=lines)
        ((name, text),) = draft.documents.items()
        overview = query.set_overview(work, requirements_from_text(text, name), visit.language)
    return visit.show(
        "requirements/set.html", overview=overview, on_it=None, back=(f"/drafts/{draft_id}", N_("The draft"))
    )


@pages.get("/hours/requirements", may="see own standing")
def own_set(visit: Here) -> Response:
    """The set a trainee is on."""
    enrolment = own_enrolment(visit)
    with visit.store.reading(visit.school_id) as work:
        requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
        overview = query.set_overview(work, requirements, visit.language)
    return visit.show("requirements/set.html", overview=overview, on_it=None, back=("/hours", N_("My hours")))
