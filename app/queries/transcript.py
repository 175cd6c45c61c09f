"""The record of a training on one page: hours, practicals, modules, documents, certificates, and the root that proves it."""

from dataclasses import dataclass
from datetime import date, datetime

from app.files.receipts import write_root
from app.queries.certificates import candidate_of, lives_of
from app.queries.proof import current_root
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.wording.certificates import STATES
from app.wording.dates import day_text
from app.wording.hours import hours
from app.wording.languages import Language
from assessments.readiness.evidence import Evidence
from curriculum.faults import N_

HOURS, SHORT = N_("{credited} of {needed} asked for"), N_("{credited} of {needed} asked for, {further} still to do")
PASSED, NOT_PASSED = N_("passed on {day}"), N_("not passed")
COMPLETED, NOT_COMPLETED = N_("completed on {day}"), N_("not completed")
SEEN, NOT_SEEN = N_("seen, from {day}"), N_("not seen")
KINDS = {"practical": N_("Practicals"), "module": N_("Modules"), "document": N_("Documents")}
SAYS = N_("{school} says of {name}, enrolled on {enrolled}, as the record stood on {day}:")


@dataclass(frozen=True, slots=True)
class Transcript:
    """Texts for people; `sections` are (heading, rows of what and how)."""

    name: str
    programme: str
    says: str
    made: str
    sections: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    root: str


def transcript(  # noqa: PLR0913 - whose, when, in which words
    work: Work, enrolment: Enrolment, school: str, now: datetime, today: date, language: Language
) -> Transcript:
    """As of today; no marks of practicals, only whether they were passed and when."""
    candidate = candidate_of(work, enrolment, today)
    name = work.people.by_id(enrolment.person_id).name
    programme = next(one.title for one in work.enrolments.programmes() if one.id == enrolment.programme_id)
    made, enrolled = (day_text(day, language.locale) for day in (today, enrolment.enrolled_on))
    sections = [(language(N_("Hours")), tuple(_hours(one, language) for one in candidate.standing.categories))]
    for kind, heading in KINDS.items():
        rows = tuple(
            (one.title, _how(kind, one.subject, candidate.evidence, language))
            for one in candidate.criteria.criteria
            if one.kind == kind
        )
        sections.append((language(heading), rows))
    kept = lives_of(work, work.certificates.of_enrolment(enrolment.id), now)
    rows = tuple((one.certificate.number, language(STATES[one.state][0])) for one in kept)
    sections.append((language(N_("Certificates")), rows))
    return Transcript(
        name,
        programme,
        language(SAYS, school=school, name=name, enrolled=enrolled, day=made),
        made,
        tuple((heading, rows) for heading, rows in sections if rows),
        write_root(current_root(work)),
    )


def _hours(one, language: Language) -> tuple[str, str]:  # noqa: ANN001 - a CategoryStanding
    values = {"credited": hours(one.credited, language), "needed": hours(one.needed, language)}
    if not one.further_at_least:
        return one.title, language(HOURS, **values)
    return one.title, language(SHORT, **values, further=hours(one.further_at_least, language))


def _how(kind: str, subject: str, evidence: Evidence, language: Language) -> str:
    """How one thing that is asked for stands: done with its day, or not."""
    done, not_done = {
        "practical": (PASSED, NOT_PASSED),
        "module": (COMPLETED, NOT_COMPLETED),
        "document": (SEEN, NOT_SEEN),
    }[kind]
    days = {
        "practical": {one.practical: one.on for one in evidence.practicals if one.state == "passed"},
        "module": {one.module: one.on for one in evidence.modules if one.state == "completed"},
        "document": {one.document: one.starts for one in evidence.documents if one.checked},
    }[kind]
    day = days.get(subject)
    return language(done, day=day_text(day, language.locale)) if day else language(not_done)
