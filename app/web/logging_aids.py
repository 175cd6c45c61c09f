"""What makes logging quick and careful, handed to the page with its form: usual lengths, kinds that earn nothing, and the
last sessions to correct. All of it holds without reception too, as it was when the page was made."""

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from app.queries.prospects import AN_HOUR, kinds_that_earn_nothing
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.web.session_form import SessionForm
from app.wording.hours import hours
from app.wording.languages import Language
from assessments.hours.session import KEPT_BY_THE_SCHOOL, Session
from assessments.hours.usual import usual_lengths


@dataclass(frozen=True, slots=True)
class LoggingAids:
    """JSON texts: `lengths` {ACTIVITY: [[minutes, words]]} ("" for what was never logged), `warnings` {KIND: sentence} as
    `kinds_that_earn_nothing`, `sessions` {id: fields of its form}."""

    lengths: str
    warnings: str
    sessions: str


def logging_aids(  # noqa: PLR0913 - what the aids are made of
    work: Work, enrolment: Enrolment, sessions: Sequence[Session], shown: Iterable[str],
    activities: Iterable[str], today: date, language: Language,
) -> LoggingAids:  # fmt: skip
    """The aids of one trainee; `shown` are the ids of the sessions that the page lists."""
    usual = {"": (AN_HOUR,)} | usual_lengths(one for one in sessions if one.proof not in KEPT_BY_THE_SCHOOL)
    lengths = {kind: [(some, hours(some, language)) for some in known] for kind, known in usual.items()}
    shown = set(shown)
    correctable = {
        one.id: SessionForm.of(one).fields()
        for one in sessions
        if one.id in shown and one.proof not in KEPT_BY_THE_SCHOOL and one.state != "withdrawn"
    }
    warnings = kinds_that_earn_nothing(work, enrolment, activities, today, language)
    return LoggingAids(*(json.dumps(one) for one in (lengths, warnings, correctable)))
