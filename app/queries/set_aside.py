"""Exams noted as void or not completed, as the record holds it until they are decided."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from app.storage.work import Work
from app.wording.dates import moment_text
from app.wording.languages import Language
from app.wording.practicals import OUTCOMES, VOID_CAUSES
from assessments.practicals.deciding import Outcome
from assessments.practicals.set_aside import SetAside
from curriculum.faults import N_

NOTED, TAKEN_BACK = "exam-set-aside", "set-aside-taken-back"
MOST_EVENTS = 60
WHAT = N_("{outcome}: {cause}")


@dataclass(frozen=True, slots=True)
class KeptAside:
    """What was noted, by whom and when; `number` is its event's."""

    noted: SetAside
    by: str
    at: datetime
    number: int


@dataclass(frozen=True, slots=True)
class ShownAside:
    """The same in words."""

    what: str
    reason: str
    by: str
    at: str
    number: int


def set_aside(work: Work, exam_id: str) -> KeptAside | None:
    """What is noted of an exam and not taken back."""
    return sets_aside(work, [exam_id]).get(exam_id)


def sets_aside(work: Work, exam_ids: Iterable[str]) -> dict[str, KeptAside]:
    """The same of several exams, by exam."""
    ids = list(exam_ids)
    newest = {}
    for event in work.record.newest_of(ids, MOST_EVENTS * len(ids)) if ids else ():
        if event.kind in (NOTED, TAKEN_BACK):
            newest.setdefault(event.subject, event)
    return {exam: _kept(event) for exam, event in newest.items() if event.kind == NOTED}


def shown_aside(kept: KeptAside, names: dict[str, str], zone: str, language: Language) -> ShownAside:
    return ShownAside(
        what_was_noted(kept.noted, language), kept.noted.reason, names.get(kept.by, ""),
        moment_text(kept.at, zone, language.locale), kept.number,
    )  # fmt: skip


def what_was_noted(noted: SetAside, language: Language) -> str:
    outcome = language(OUTCOMES[noted.outcome])
    return language(WHAT, outcome=outcome, cause=language(VOID_CAUSES[noted.cause])) if noted.cause else outcome


def _kept(event) -> KeptAside:  # noqa: ANN001 - an Event of the record
    body = event.content()
    noted = SetAside(Outcome(body["outcome"]), body["reason"], body["cause"])
    return KeptAside(noted, event.actor, event.at, event.number)
