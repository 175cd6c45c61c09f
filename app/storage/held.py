"""Everything held about one person, table by table. Each table is named here: as theirs, or why it is not handed out."""

from collections.abc import Mapping
from typing import Any

from sqlalchemy import Table, select
from sqlmodel import SQLModel

from app.storage.archiving import as_plain
from app.storage.collection import Collection
from app.storage.people import Person

# Whose rows: the column, and what its values are ids of.
HELD: Mapping[str, tuple[str, str]] = {
    "person": ("id", "person"),
    "person_role": ("person_id", "person"),
    "personal_text": ("person_id", "person"),
    "notice_read": ("person_id", "person"),
    "host_place": ("person_id", "person"),
    "host_trainee": ("person_id", "person"),
    "performance_scoring": ("person_id", "person"),
    "judging_answer": ("judge_id", "person"),
    "recall": ("person_id", "person"),
    "recall_answer": ("person_id", "person"),
    "recall_wish": ("person_id", "person"),
    "session_plan": ("person_id", "person"),
    "spotting_attempt": ("person_id", "person"),
    "spotting_answer": ("attempt_id", "spotting_attempt"),
    "tie": ("person_id", "person"),
    "token": ("person_id", "person"),
    "sign_in": ("person_id", "person"),
    "enrolment": ("person_id", "person"),
    "certificate": ("enrolment_id", "enrolment"),
    "certificate_decision": ("enrolment_id", "enrolment"),
    "certificate_step": ("certificate_id", "certificate"),
    "exam": ("enrolment_id", "enrolment"),
    "exam_decision": ("exam_id", "exam"),
    "appeal": ("exam_id", "exam"),
    "appeal_step": ("appeal_id", "appeal"),
    "module_done": ("enrolment_id", "enrolment"),
    "shown_document": ("enrolment_id", "enrolment"),
    "time_granted": ("enrolment_id", "enrolment"),
    "standing": ("enrolment_id", "enrolment"),
    "request": ("enrolment_id", "enrolment"),
    "request_step": ("request_id", "request"),
    "session_now": ("enrolment_id", "enrolment"),
    "session_version": ("enrolment_id", "enrolment"),
    "session_part": ("session_id", "session_now"),
    "session_note": ("enrolment_id", "enrolment"),
    "noted_exercise": ("session_id", "session_now"),
    "host_decision": ("session_id", "session_now"),
    "feedback": ("enrolment_id", "enrolment"),
}
OF_THE_SCHOOL = "it is the school's, and says nothing of anybody"
OF_OTHERS = "it is about somebody else, or written by them in confidence"
OF_EXAMINERS = (
    "what examiners wrote: the candidate gets the decision and the feedback; whoever appeals gets more from the school"
)
NOT_HANDED_OUT: Mapping[str, str] = {
    **dict.fromkeys(
        ("school", "done", "edition", "edition_draft", "programme", "event_count", "record_node", "signing_key", "room_check",
         "safety_notice", "season_picture", "judging", "judging_step", "reference_founding", "drawing", "sign_in_attempt"),
        OF_THE_SCHOOL,
    ),
    **dict.fromkeys(
        ("host", "host_link", "host_pin", "host_reminder", "host_terms", "worry", "incident", "incident_step", "spot_code",
         "exam_paper", "invitation", "personal_salt"),
        OF_OTHERS,
    ),
    **dict.fromkeys(
        ("exam_list", "exam_seat", "seat_decline", "list_opening", "sheet_draft", "sheet_record", "sheet_version", "waiver"),
        OF_EXAMINERS,
    ),
    "event": "found by their subject, below",
    "outgoing_mail": "found by its address, below",
}  # fmt: skip
# What proves who somebody is goes nowhere.
SECRETS = frozenset({"password_hash", "secret_hash", "token_hash", "salt"})
KEYS = {"session_now": "session_id"}


class Held(Collection):
    def about(self, person: Person) -> dict[str, list[dict[str, Any]]]:
        """Rows as plain data by table, those without rows left out; events of them, and mails to them, at the end."""
        ids: dict[str, set[str]] = {"person": {person.id}}
        found: dict[str, list[dict[str, Any]]] = {}
        for name, (column, of) in HELD.items():
            rows = self._rows(name, column, ids.get(of, set()))
            if rows:
                found[name] = rows
                key = KEYS.get(name, "id")
                ids[name] = {row[key] for row in rows if key in row}
        subjects = set().union(*(ids.get(name, set()) for name in ("person", "enrolment", "session_now", "request")))
        found["event"] = self._rows("event", "subject", subjects)
        found["outgoing_mail"] = self._rows("outgoing_mail", "to_address", {person.email})
        return {name: rows for name, rows in found.items() if rows}

    def _rows(self, name: str, column: str, values: set[str]) -> list[dict[str, Any]]:
        table: Table = SQLModel.metadata.tables[name]
        rows = []
        wanted = sorted(values)
        for start in range(0, len(wanted), 500):
            query = select(table).where(
                table.c.school_id == self._school, table.c[column].in_(wanted[start : start + 500])
            )
            for row in self._session.execute(query.order_by(*table.primary_key.columns)).mappings():
                rows.append({key: as_plain(value) for key, value in row.items() if key not in {*SECRETS, "school_id"}})
        return rows
