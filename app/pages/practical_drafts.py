"""A draft of a practical written in a form, and its score sheet as an examiner would see it."""

from fastapi.responses import Response

from app.files.editions import document_faults
from app.files.practical_tree import text_of, tree_of
from app.files.practicals import practical_from_text
from app.queries.sheet_preview import sheet_preview
from app.storage.editions import EditionDraft
from app.use_cases.editions import WriteFile, write_file
from app.web.door import Pages
from app.web.practical_form import PracticalForm, changed, placed
from app.web.sheet_form import SheetForm
from app.web.typed import whole_number
from app.web.visit import Here, ShownFault, Visit
from app.wording.practical_drafts import CHOICES
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/drafts/{draft_id}/practical", may="write editions")
def form(visit: Here, draft_id: str) -> Response:
    """The whole practical as a form, with every fault at its field; a file that is no YAML is put right as text first."""
    draft = _draft(visit, draft_id)
    (name,) = draft.documents
    try:
        tree = tree_of(draft.documents[name], name)
    except RefusedError:
        return visit.go(f"/drafts/{draft_id}/files/{name}", visit.say(N_("Put the file right first.")))
    found = document_faults(draft.kind, draft.documents)
    faults = [ShownFault(placed(one), shown.text) for one, shown in zip(found, visit.faults(found), strict=True)]
    choices = {key: [(code, visit.say(words)) for code, words in pairs] for key, pairs in CHOICES.items()}
    values = {"draft": draft, "doc": PracticalForm(tree), "faults": faults, "choices": choices}
    return visit.show("practical_drafts/form.html", **values)


@pages.post("/drafts/{draft_id}/practical", may="write editions")
def keep(visit: Here, draft_id: str) -> Response:
    """Keep what was typed, faulty or not: a draft may be faulty until it is published."""
    draft = _draft(visit, draft_id)
    (name,) = draft.documents
    before = draft.documents[name]
    text = text_of(changed(tree_of(before, name), visit.form), before)
    kept = write_file(visit.store, visit.asker, WriteFile(draft_id, name, text, whole_number(visit.typed("version"))))
    number = len(document_faults(kept.kind, kept.documents))
    said = visit.language.ngettext(
        "Kept. {number} thing to put right.", "Kept. {number} things to put right.", number
    ) if number else visit.say(N_("Kept, without a fault."))  # fmt: skip
    return visit.go(f"/drafts/{draft_id}/practical", said)


@pages.get("/drafts/{draft_id}/practical/preview", may="write editions")
def preview(visit: Here, draft_id: str) -> Response:
    """The score sheet of the draft, with nothing to send."""
    draft = _draft(visit, draft_id)
    ((name, text),) = draft.documents.items()
    try:
        practical = practical_from_text(text, name)
    except RefusedError:
        return visit.go(
            f"/drafts/{draft_id}/practical", visit.say(N_("Put it right first; then there is a sheet to see."))
        )
    with visit.store.reading(visit.school_id) as work:
        sheet = sheet_preview(work, practical, visit.language)
    return visit.show("practical_drafts/preview.html", draft=draft, sheet=sheet, form=SheetForm({}))


def _draft(visit: Visit, draft_id: str) -> EditionDraft:
    with visit.store.reading(visit.school_id) as work:
        draft = work.editions.draft(draft_id)
    if draft is None or draft.kind != "practical" or len(draft.documents) != 1:
        raise NotFoundError
    return draft
