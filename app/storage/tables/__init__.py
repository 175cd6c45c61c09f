"""The tables, by what they hold. Every row carries its school; rows never leave storage."""

from sqlmodel import SQLModel

# Constraint names must be known to later migrations on both databases.
SQLModel.metadata.naming_convention = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}

# Tables whose rows are facts: no row is ever changed or removed (triggers see to it).
APPEND_ONLY = (
    "event",
    "record_node",
    "session_version",
    "session_part",
    "host_decision",
    "sheet_version",
    "sheet_record",
    "exam_decision",
    "waiver",
    "time_granted",
    "tie",
    "session_note",
    "noted_exercise",
    "spotting_attempt",
    "spotting_answer",
    "host_reminder",
    "worry",
    "feedback",
    "done",
    "judging",
    "judging_answer",
    "judging_step",
    "drawing",
    "exam_list",
    "list_opening",
    "performance_scoring",
    "reference_founding",
)

from app.storage.tables import (  # noqa: E402
    calibration,
    chores,
    editions,
    exams,
    feedback,
    hosts,
    judging,
    ledger,
    lists,
    notes,
    notices,
    people,
    plans,
    programmes,
    recalls,
    records,
    seasons,
    spotting,
    tokens,
)

__all__ = [
    "APPEND_ONLY",
    "calibration",
    "chores",
    "editions",
    "exams",
    "feedback",
    "hosts",
    "judging",
    "ledger",
    "lists",
    "notes",
    "notices",
    "people",
    "plans",
    "programmes",
    "recalls",
    "records",
    "seasons",
    "spotting",
    "tokens",
]
