"""Pages, one file per noun; none imports another."""

import importlib

from app.web.door import Pages

NOUNS = (
    "sign_in",
    "hours",
    "trials",
    "changes",
    "notes",
    "host",
    "host_sessions",
    "host_receipts",
    "host_record",
    "feedback",
    "host_terms",
    "places",
    "host_pins",
    "spot",
    "hosts",
    "worries",
    "proof",
    "exports",
    "imports",
    "cohort",
    "questions",
    "outbox",
    "tokens",
    "coverage",
    "registers",
    "trainees",
    "readiness",
    "certificates",
    "my_certificates",
    "verify",
    "issuers",
    "repertoire",
    "exams",
    "set_aside",
    "exam_days",
    "exam_seats",
    "invited",
    "exam_clients",
    "admissions",
    "my_practicals",
    "judging",
    "calibration",
    "lists",
    "sheets",
    "sheet_room",
    "editions",
    "requirements",
    "confirming",
    "notices",
    "plans",
    "study",
    "offline",
    "printed",
    "springs",
    "seasons",
    "spotting",
)


def every_page() -> tuple[Pages, ...]:
    """The pages of every noun."""
    return tuple(importlib.import_module(f"app.pages.{noun}").pages for noun in NOUNS)
