"""Editions: what is published, drafts written with every fault shown, published, and trainees moved."""

from dataclasses import replace

from fastapi.responses import Response

from app.files.case import case_package, write_case
from app.files.editions import document_faults
from app.files.repertoire import edition_from_documents
from app.queries import editions as query
from app.storage.editions import Edition, EditionDraft
from app.use_cases import editions as act
from app.web.door import Pages
from app.web.typed import whole_number
from app.web.visit import Here, Visit
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/editions", may="write editions")
def editions(visit: Here) -> Response:
    """Everything published and everything being written, by kind."""
    return _editions(visit, [], 200)


@pages.post("/editions/case", may="write editions")
def begin_from_case(visit: Here) -> Response:
    """Begin a draft of the repertoire from a CASE package."""
    try:
        draft = act.draft_from_case(visit.store, visit.asker, visit.typed("package"))
    except RefusedError as refusal:
        return _editions(visit, visit.faults(refusal.faults[:50]), 422)
    return visit.go(
        f"/drafts/{draft.id}", visit.say(N_("A draft from the package. Nothing changes until you publish it."))
    )


@pages.get("/editions/{edition_id}/case.json", may="write editions")
def as_case(visit: Here, edition_id: str, version: str = "1.1") -> Response:
    """A repertoire as a CASE 1.1 package, or as 1.0 for older readers."""
    with visit.store.reading(visit.school_id) as work:
        found = _found(work.editions.by_id(edition_id))
    if found.kind != "repertoire" or version not in ("1.1", "1.0"):
        raise NotFoundError
    changed = found.published_at.strftime("%Y-%m-%dT%H:%M:%SZ")
    language = visit.locale.partition("_")[0]
    package = case_package(edition_from_documents(found.documents), visit.school.name, changed, language, version)
    headers = {"content-disposition": f'attachment; filename="{found.name}-{found.number}.case.json"'}
    return Response(write_case(package).encode(), media_type="application/json", headers=headers)


@pages.get("/editions/{edition_id}", may="write editions")
def edition(visit: Here, edition_id: str) -> Response:
    return _edition(visit, edition_id, [], 200)


@pages.get("/editions/{edition_id}/files/{file_name}", may="write editions")
def edition_file(visit: Here, edition_id: str, file_name: str) -> Response:
    """A file as it was published, to keep or to read."""
    with visit.store.reading(visit.school_id) as work:
        documents = _found(work.editions.by_id(edition_id)).documents
    return _download(documents, file_name)


@pages.post("/editions/{edition_id}/drafts", may="write editions")
def begin(visit: Here, edition_id: str) -> Response:
    """Begin a draft as a copy of this edition."""
    draft = act.begin_draft(visit.store, visit.asker, edition_id)
    return visit.go(f"/drafts/{draft.id}", visit.say(N_("A draft to work on. Nothing changes until you publish it.")))


@pages.post("/editions/{edition_id}/trainees", may="move trainees")
def move(visit: Here, edition_id: str) -> Response:
    """Put the chosen trainees on this edition."""
    request = act.MoveTrainees(edition_id, tuple(visit.form.get("enrolments", ())), visit.typed("reason"))
    try:
        moved = act.move_trainees(visit.store, visit.asker, request)
    except RefusedError as refusal:
        return _edition(visit, edition_id, visit.faults(refusal.faults), 422)
    said = visit.language.ngettext("{number} trainee moved.", "{number} trainees moved.", moved)
    return visit.go(f"/editions/{edition_id}", said)


@pages.post("/editions/{edition_id}/trainees/{enrolment_id}/back", may="move trainees")
def move_back(visit: Here, edition_id: str, enrolment_id: str) -> Response:
    """Undo a trainee's move to this edition."""
    reason = visit.say(N_("the move was taken back"))
    earlier = act.move_back(visit.store, visit.asker, edition_id, enrolment_id, reason)
    said = visit.say(N_("Back on {edition}. Both moves are on record."), edition=f"{earlier.name} {earlier.number}")
    return visit.go(f"/editions/{edition_id}", said)


@pages.get("/drafts/{draft_id}", may="write editions")
def draft(visit: Here, draft_id: str) -> Response:
    """Files, faults, what it changes."""
    return _draft(visit, draft_id, [], 200)


@pages.get("/drafts/{draft_id}/touches", may="write editions")
def touches(visit: Here, draft_id: str) -> Response:
    """Whom the draft would touch, and how; asked for by itself since every trainee is solved twice."""
    with visit.store.reading(visit.school_id) as work:
        found = _found(work.editions.draft(draft_id))
        touched = query.touched_by(work, found, visit.today, visit.language)
        overview = query.draft_overview(work, found, visit.language)
    return visit.show("editions/touches.html", overview=overview, touched=touched)


@pages.get("/drafts/{draft_id}/files/{file_name}", may="write editions")
def draft_file(visit: Here, draft_id: str, file_name: str) -> Response:
    """One file to be written."""
    with visit.store.reading(visit.school_id) as work:
        found = _found(work.editions.draft(draft_id))
    if file_name not in found.documents:
        raise NotFoundError
    return _file(visit, found, file_name, found.documents[file_name], [], 200)


@pages.get("/drafts/{draft_id}/download/{file_name}", may="write editions")
def download(visit: Here, draft_id: str, file_name: str) -> Response:
    """A file of a draft, to be written elsewhere and put back."""
    with visit.store.reading(visit.school_id) as work:
        documents = _found(work.editions.draft(draft_id)).documents
    return _download(documents, file_name)


@pages.post("/drafts/{draft_id}/files", may="write editions")
def write(visit: Here, draft_id: str) -> Response:
    """Keep a file, faulty or not; its faults are shown beside it."""
    name, text = visit.typed("name").strip(), visit.typed("text")
    request = act.WriteFile(draft_id, name, text, whole_number(visit.typed("version")))
    try:
        kept = act.write_file(visit.store, visit.asker, request)
    except RefusedError as refusal:
        with visit.store.reading(visit.school_id) as work:
            found = _found(work.editions.draft(draft_id))
        return _file(visit, found, name, text, visit.faults(refusal.faults), 422)
    own = [fault for fault in document_faults(kept.kind, kept.documents) if fault.source == name]
    said = visit.language.ngettext(
        "Kept. {number} thing to put right in this file.", "Kept. {number} things to put right in this file.", len(own)
    )
    return visit.go(f"/drafts/{draft_id}/files/{name}", said if own else visit.say(N_("Kept, without a fault.")))


@pages.post("/drafts/{draft_id}/check", may="write editions")
def check(visit: Here, draft_id: str) -> Response:
    """What would be to put right if the file were kept as typed; nothing is kept."""
    with visit.store.reading(visit.school_id) as work:
        found = _found(work.editions.draft(draft_id))
        name, text = visit.typed("name"), visit.typed("text").replace("\r\n", "\n")
        if name not in found.documents:
            raise NotFoundError
        as_typed = replace(found, documents={**found.documents, name: text})
        overview = query.draft_overview(work, as_typed, visit.language)
    return visit.show("editions/checked.html", overview=overview, name=name)


@pages.post("/drafts/{draft_id}/files/{file_name}/remove", may="write editions")
def remove(visit: Here, draft_id: str, file_name: str) -> Response:
    try:
        act.remove_file(visit.store, visit.asker, draft_id, file_name, whole_number(visit.typed("version")))
    except RefusedError as refusal:
        return _draft(visit, draft_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/drafts/{draft_id}", visit.say(N_("Taken out of the draft.")))


@pages.post("/drafts/{draft_id}/publish", may="publish editions")
def publish(visit: Here, draft_id: str) -> Response:
    """Publish for good; refused with every fault."""
    start_on = visit.typed("start_on") == "yes"
    try:
        made = act.publish_draft(visit.store, visit.asker, draft_id, whole_number(visit.typed("version")), start_on)
    except RefusedError as refusal:
        return _draft(visit, draft_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/editions/{made.id}", visit.say(N_("Published. Trainees stay on their edition until moved.")))


@pages.post("/drafts/{draft_id}/discard", may="write editions")
def discard(visit: Here, draft_id: str) -> Response:
    act.discard_draft(visit.store, visit.asker, draft_id, whole_number(visit.typed("version")))
    return visit.go("/editions", visit.say(N_("The draft is thrown away. Nothing published changed.")))


def _editions(visit: Visit, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        parts = query.editions_overview(work, visit.school.time_zone, visit.language)
    return visit.show("editions/editions.html", status, parts=parts, faults=faults)


def _edition(visit: Visit, edition_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        overview = query.edition_overview(work, _found(work.editions.by_id(edition_id)), visit.language)
    chosen = visit.form.get("enrolments", ())
    return visit.show(
        "editions/edition.html", status, overview=overview, faults=faults, chosen=chosen, reason=visit.typed("reason")
    )


def _draft(visit: Visit, draft_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        overview = query.draft_overview(work, _found(work.editions.draft(draft_id)), visit.language)
    return visit.show("editions/draft.html", status, overview=overview, faults=faults)


def _file(visit: Visit, found: EditionDraft, name: str, text: str, refused: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        overview = query.draft_overview(work, found, visit.language)
    return visit.show("editions/file.html", status, overview=overview, name=name, text=text, refused=refused)


def _download(documents: dict[str, str], name: str) -> Response:
    if name not in documents:
        raise NotFoundError
    headers = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(documents[name].encode(), media_type="application/yaml", headers=headers)


def _found(one: Edition | EditionDraft | None) -> Edition | EditionDraft:
    if one is None:
        raise NotFoundError
    return one
