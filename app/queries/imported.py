"""What was taken from files for one trainee, newest first."""

from dataclasses import dataclass

from app.storage.work import Work
from app.wording.dates import moment_text
from app.wording.languages import Language


@dataclass(frozen=True, slots=True)
class ImportLine:
    """One import: its id, file ("" if it had no name, or that was erased), when and by whom, how many sessions, and how many of them still stand."""

    batch: str
    file: str
    at: str
    by: str
    sessions: int
    standing: int


def import_lines(work: Work, enrolment_id: str, zone: str, language: Language) -> list[ImportLine]:
    names = work.people.names()
    states = {one.id: one.state for one in work.ledger.of_enrolment(enrolment_id)}
    lines = []
    for event in work.record.of_subject(enrolment_id):
        if event.kind == "hours-imported":
            body = event.content()
            standing = sum(states.get(id) != "withdrawn" for id in body["sessions"])
            at = moment_text(event.at, zone, language.locale)
            by = names.get(event.actor, "")
            file = work.record.words(body.get("words", "")) or ""
            lines.append(ImportLine(body["batch"], file, at, by, len(body["sessions"]), standing))
    return lines[::-1]
