"""What trainees do with notes of their sessions: keep them, each time as a new version."""

import secrets

from app.files.repertoire import edition_from_documents
from app.storage.notes import SessionNote
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from curriculum.competencies.notes import NotedExercise, note_faults
from curriculum.faults import N_, ConflictError, NotFoundError, RefusedError


def keep_notes(
    store: Store, asker: Asker, session_id: str, lines: tuple[NotedExercise, ...], known: tuple[str, int]
) -> SessionNote:
    """Keep what was noted; `known` is the (edition id, version) that the form was made for, version 0 for none.

    The same notes sent twice are kept once; notes made over a newer version, or another edition, are a conflict.
    """
    with store.writing(asker.school.id) as work:
        enrolment = work.enrolments.by_id(work.ledger.enrolment_of(session_id) or "")
        if enrolment is None or enrolment.person_id != asker.person_id:
            raise NotFoundError
        before, version = work.notes.newest(session_id), known[1]
        number = before.version if before else 0
        if before and number == version + 1 and before.lines == lines:
            return before
        if (enrolment.repertoire_id, number) != known:
            raise ConflictError(N_("These notes were changed meanwhile. Open them again to see how they stand."))
        edition = edition_from_documents(work.editions.by_id(enrolment.repertoire_id).documents)
        activities = {part.activity for part in work.ledger.now(session_id).parts}
        faults = note_faults(lines, edition, activities)
        if faults:
            raise RefusedError(faults)
        if (before.lines if before else ()) == lines:
            return before or SessionNote(session_id, 0, enrolment.id, known[0], asker.person_id, asker.now)
        note = SessionNote(session_id, number + 1, enrolment.id, known[0], asker.person_id, asker.now, lines)
        write_notes(work, note)
        work.commit()
    return note


def write_notes(work: Work, note: SessionNote) -> None:
    """Write one version: free words where they can be erased, their hash and all the rest on record."""
    kept = [_words(work, note, line) for line in note.lines]
    work.notes.add_version(note, tuple(words_id for words_id, _ in kept))
    body = {
        "session": note.session_id,
        "version": note.version,
        "edition": note.edition_id,
        "lines": [_line_body(line, words) for line, (_, words) in zip(note.lines, kept, strict=True)],
    }
    work.record.append("session-noted", note.session_id, note.noted_by, note.noted_at, body)


def _words(work: Work, note: SessionNote, line: NotedExercise) -> tuple[str | None, str]:
    if not line.words:
        return None, ""
    words_id = secrets.token_hex(16)
    return words_id, work.record.keep_words(words_id, note.noted_by, line.words, secrets.token_bytes(16))


def _line_body(line: NotedExercise, words_hash: str) -> dict[str, object]:
    faults = {one.fault: list(one.mended) for one in line.faults}
    return {
        "activity": line.activity,
        "exercise": line.exercise,
        "cues": list(line.cues),
        "faults": faults,
        "words": words_hash,
    }
