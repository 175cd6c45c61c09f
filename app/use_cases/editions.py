"""What the director does with editions: write a draft, publish it, put trainees on another edition."""

import secrets
from dataclasses import dataclass, replace

from app.files.case import edition_from_case
from app.files.confirming import unconfirmed, with_confirmed
from app.files.editions import MOST_FILES, document_faults, edition_number, file_faults
from app.files.repertoire import edition_texts
from app.queries.edition_moves import came_from
from app.queries.editions import MOVED_KINDS
from app.storage.editions import Edition, EditionDraft
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError
from curriculum.repertoire.reading import EDITION_FILE


@dataclass(frozen=True, slots=True)
class WriteFile:
    """A file of a draft as typed; `version` is the draft's version that its writer saw."""

    draft_id: str
    name: str
    text: str
    version: int


@dataclass(frozen=True, slots=True)
class MoveTrainees:
    """Trainees to be put on an edition, and why."""

    edition_id: str
    enrolment_ids: tuple[str, ...]
    reason: str


def begin_draft(store: Store, asker: Asker, edition_id: str) -> EditionDraft:
    """A draft that begins as a copy of a published edition."""
    with store.writing(asker.school.id) as work:
        edition = work.editions.by_id(edition_id)
        if edition is None:
            raise NotFoundError
        draft = EditionDraft(
            secrets.token_hex(16), edition.kind, edition.name, edition.id, edition.documents, 1, asker.person_id,
            asker.now,
        )  # fmt: skip
        work.editions.put_draft(draft)
        work.commit()
    return draft


def draft_from_case(store: Store, asker: Asker, text: str) -> EditionDraft:
    """A draft of the repertoire from a CASE package; every fault at once, and then nothing is begun."""
    documents = edition_texts(edition_from_case(text))
    with store.writing(asker.school.id) as work:
        newest = work.editions.newest("repertoire")
        name, base = (newest.name, newest.id) if newest else ("repertoire", None)
        draft = EditionDraft(secrets.token_hex(16), "repertoire", name, base, documents, 1, asker.person_id, asker.now)
        work.editions.put_draft(draft)
        work.commit()
    return draft


def write_file(store: Store, asker: Asker, request: WriteFile) -> EditionDraft:
    """Keep a file of a draft, faulty or not; a draft may be faulty until it is published."""
    text = request.text.replace("\r\n", "\n")
    with store.writing(asker.school.id) as work:
        draft = _draft(work, request.draft_id, request.version)
        faults = list(file_faults(draft.kind, request.name, text))
        if request.name not in draft.documents and (draft.kind != "repertoire" or len(draft.documents) >= MOST_FILES):
            faults.append(Fault("no-more-files", N_("this edition takes no further file"), field="name"))
        if faults:
            raise RefusedError(faults)
        return _keep(work, asker, draft, {**draft.documents, request.name: text})


def remove_file(store: Store, asker: Asker, draft_id: str, name: str, version: int) -> EditionDraft:
    """Take a series file out of a draft of the repertoire."""
    with store.writing(asker.school.id) as work:
        draft = _draft(work, draft_id, version)
        if name not in draft.documents:
            raise NotFoundError
        if draft.kind != "repertoire" or name == EDITION_FILE:
            raise RefusedError([Fault("needed", N_("this file is needed"), field="name")])
        return _keep(work, asker, draft, {one: text for one, text in draft.documents.items() if one != name})


def confirm_fields(
    store: Store, asker: Asker, draft_id: str, exercise_id: str, fields: frozenset[str], version: int
) -> EditionDraft:
    """Write into a draft that the school stands by these fields of an exercise."""
    with store.writing(asker.school.id) as work:
        draft = _draft(work, draft_id, version)
        one = next((found for found in unconfirmed(draft.documents) if found.exercise == exercise_id), None)
        if one is None:
            raise NotFoundError
        if not fields & set(one.fields):
            raise RefusedError([Fault("nothing-chosen", N_("choose what is right"), field="fields")])
        try:
            text = with_confirmed(draft.documents[one.file], one, fields)
        except ValueError as shape:
            sentence = N_("“confirm” is not written on one line here; change it in the file")
            raise RefusedError([Fault("not-inline", sentence, field="fields")]) from shape
        return _keep(work, asker, draft, {**draft.documents, one.file: text})


def discard_draft(store: Store, asker: Asker, draft_id: str, version: int) -> None:
    """Throw a draft away; nothing published changes."""
    with store.writing(asker.school.id) as work:
        work.editions.drop_draft(_draft(work, draft_id, version).id)
        work.commit()


def publish_draft(store: Store, asker: Asker, draft_id: str, version: int, start_on: bool) -> Edition:
    """Publish a draft for good; every fault at once, and then nothing is published.

    With `start_on`, programmes that start on an edition of this name start on the new one from now on; trainees stay
    on theirs until they are moved.
    """
    with store.writing(asker.school.id) as work:
        draft = _draft(work, draft_id, version)
        faults = document_faults(draft.kind, draft.documents)
        if faults:
            raise RefusedError(faults)
        number = edition_number(draft.kind, draft.name, draft.documents)
        _refuse_taken_number(work, draft, number)
        edition = Edition(draft.id, draft.kind, draft.name, number, draft.documents, asker.now)
        earlier = frozenset(one.id for one in work.editions.of_kind(draft.kind) if one.name == draft.name)
        work.editions.add(edition)
        work.editions.drop_draft(draft.id)
        if start_on and draft.kind in MOVED_KINDS:
            work.enrolments.start_on(draft.kind, edition.id, earlier)
        body = {"edition": edition.id, "kind": draft.kind, "name": draft.name, "number": number, "start_on": start_on}
        work.record.append("edition-published", edition.id, asker.person_id, asker.now, body)
        work.commit()
    return edition


def move_trainees(store: Store, asker: Asker, request: MoveTrainees) -> int:
    """Put trainees on an edition, all or none; gives how many were on another one before."""
    with store.writing(asker.school.id) as work:
        edition = work.editions.by_id(request.edition_id)
        if edition is None or edition.kind not in MOVED_KINDS:
            raise NotFoundError
        faults = []
        if not request.reason.strip():
            faults.append(Fault("no-reason", N_("say why; the trainee reads it"), field="reason"))
        if not request.enrolment_ids:
            faults.append(Fault("nobody", N_("choose who is moved"), field="enrolments"))
        if faults:
            raise RefusedError(faults)
        moved = sum(_move(work, asker, edition, id, request.reason.strip()) for id in set(request.enrolment_ids))
        work.commit()
    return moved


def move_back(store: Store, asker: Asker, edition_id: str, enrolment_id: str, reason: str) -> Edition:
    """Undo a trainee's last move, which led to this edition; gives the edition they are on again. Both stay on record."""
    with store.writing(asker.school.id) as work:
        edition, enrolment = work.editions.by_id(edition_id), work.enrolments.by_id(enrolment_id)
        if edition is None or enrolment is None or edition.kind not in MOVED_KINDS:
            raise NotFoundError
        was = came_from(work, edition, [enrolment_id]).get(enrolment_id)
        earlier = work.editions.by_id(was) if was else None
        if earlier is None or getattr(enrolment, f"{edition.kind}_id") != edition.id:
            raise ConflictError(N_("This trainee is not on this edition any more. Open the page again to see who is."))
        _move(work, asker, earlier, enrolment_id, reason)
        work.commit()
    return earlier


def _move(work: Work, asker: Asker, edition: Edition, enrolment_id: str, reason: str) -> bool:
    enrolment = work.enrolments.by_id(enrolment_id)
    if enrolment is None:
        raise NotFoundError
    was = getattr(enrolment, f"{edition.kind}_id")
    if was == edition.id:
        return False
    work.enrolments.move(enrolment_id, edition.kind, edition.id)
    body = {"enrolment": enrolment_id, "kind": edition.kind, "from": was, "to": edition.id, "reason": reason}
    work.record.append("moved-to-edition", enrolment_id, asker.person_id, asker.now, body)
    return True


def _draft(work: Work, draft_id: str, version: int) -> EditionDraft:
    draft = work.editions.draft(draft_id)
    if draft is None:
        raise NotFoundError
    if draft.version != version:
        raise ConflictError(N_("This draft was changed meanwhile. Open it again; copy your text first."))
    return draft


def _keep(work: Work, asker: Asker, draft: EditionDraft, documents: dict[str, str]) -> EditionDraft:
    kept = replace(
        draft, documents=documents, version=draft.version + 1, changed_by=asker.person_id, changed_at=asker.now
    )
    work.editions.put_draft(kept)
    work.commit()
    return kept


def _refuse_taken_number(work: Work, draft: EditionDraft, number: str) -> None:
    taken = {one.number for one in work.editions.of_kind(draft.kind) if one.name == draft.name}
    if number in taken:
        sentence = N_("edition {number} is published already; give this one another number in “edition”")
        raise RefusedError([Fault("number-taken", sentence, {"number": number}, "edition")])
