"""Feedback on taught lessons: what a teacher can say of one, what a trainee reads, and what it is evidence of."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.files.repertoire import edition_from_documents
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.wording.dates import day_text
from app.wording.feedback import ERASED, LEVELS, WHOLE
from app.wording.languages import Language
from assessments.hours.session import Session
from curriculum.competencies.evidence import ACTIVITY_OF, Evidence
from curriculum.competencies.feedback import TAUGHT, evidence_of_feedback
from curriculum.competencies.notes import NotedExercise
from curriculum.competencies.statements import STRAND_NAMES
from curriculum.faults import N_

GONE = ("withdrawn", "sent_back")


@dataclass(frozen=True, slots=True)
class ShownFeedback:
    """Feedback as the trainee reads it; texts are for people, words as they were written."""

    session_id: str
    day: str
    teacher: str
    about: str
    strand: str
    level: str
    worked: str
    better: str
    next_step: str


def can_have_feedback(session: Session) -> bool:
    """Whether a trainee taught in it, and its host has signed it."""
    return session.state == "signed_off" and any(part.activity in TAUGHT for part in session.parts)


def feedback_shown(
    work: Work, enrolment: Enrolment, language: Language, session_id: str = ""
) -> tuple[ShownFeedback, ...]:
    """All feedback of an enrolment, or of one session of it; newest first."""
    given = [one for one in work.feedback.of_enrolment(enrolment.id) if session_id in ("", one.session_id)]
    if not given:
        return ()
    hosts = {host.id: host.name for host in work.hosts.all()}
    edition = edition_from_documents(work.editions.by_id(enrolment.repertoire_id).documents)
    names = {one.id: one.name for one in edition.exercises} | {"": language(WHOLE)}

    def words(words_id: str) -> str:
        return work.record.words(words_id) or language(ERASED)

    return tuple(
        ShownFeedback(
            one.session_id,
            day_text(work.ledger.now(one.session_id).day, language.locale),
            hosts[one.host_id],
            names.get(one.exercise, one.exercise),
            language(STRAND_NAMES[one.strand]),
            language(LEVELS[one.level]),
            words(one.worked_id),
            words(one.better_id),
            words(one.next_step_id),
        )
        for one in given
    )


def exercises_of(work: Work, session: Session, language: Language) -> list[tuple[str, str]]:
    """What feedback on a lesson may be about: all of it, what is noted as taught, then the rest on its apparatus."""
    enrolment = work.enrolments.by_id(work.ledger.enrolment_of(session.id))
    edition = edition_from_documents(work.editions.by_id(enrolment.repertoire_id).documents)
    note = work.notes.newest(session.id)
    taught = taught_in(note.lines if note else ())
    used = {part.apparatus for part in session.parts if part.apparatus}
    on_it = [one for one in edition.exercises if not used or one.apparatus in used]
    first = [one for one in edition.exercises if one.id in taught]
    apparatus = {one.id: one.name for one in edition.apparatus}
    shown = {one.id: f"{apparatus[one.apparatus]}: {one.name}" for one in (*first, *on_it)}
    return [("", language(WHOLE)), *shown.items()]


def taught_in(lines: tuple[NotedExercise, ...]) -> tuple[str, ...]:
    """The exercises that are noted as taught."""
    return tuple(one.exercise for one in lines if ACTIVITY_OF.get(one.activity) == "taught")


def evidence_given(
    work: Work, enrolment: Enrolment, sessions: Mapping[str, Session], taught: Mapping[str, tuple[str, ...]]
) -> Iterator[Evidence]:
    """The evidence of an enrolment's feedback, while its session stands; `taught` are exercises by session."""
    given = work.feedback.of_enrolment(enrolment.id)
    names = {host.id: host.name for host in work.hosts.all()} if given else {}
    for one in given:
        session = sessions[one.session_id]
        if session.state not in GONE:
            lesson = taught.get(one.session_id, ())
            yield from evidence_of_feedback(one.exercise, one.strand, session.day, names[one.host_id], lesson)


def lessons_signed(work: Work, receipts: list[str], language: Language) -> list[tuple[str, str]]:
    """The lessons just signed on which feedback may be given: session id, and whose and when in words."""
    names, found = work.people.names(), []
    for number in receipts:
        session = work.ledger.now(work.hosts.by_receipt(number).session_id)
        if can_have_feedback(session):
            enrolment = work.enrolments.by_id(work.ledger.enrolment_of(session.id))
            day = day_text(session.day, language.locale)
            found.append((session.id, language(N_("{name}, {day}"), name=names[enrolment.person_id], day=day)))
    return found
