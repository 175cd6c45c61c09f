"""A candidate's own exams: what is coming and how it is judged, and after the decision what to act on."""

import json
from dataclasses import dataclass
from datetime import date, timedelta

from app.files.repertoire import edition_from_documents
from app.queries.admissions import admission_of, missing_of
from app.queries.exam_facts import edition_of_exam, practical_of, result_of, sent_sheets, tasks_of
from app.queries.exam_feedback import ExamFeedback, exam_feedback
from app.queries.recordings import recording_of, recording_rules
from app.queries.retakes import again_text, what_follows
from app.queries.set_aside import set_aside
from app.queries.sheet_facts import exercise_names
from app.storage.exams import Exam, ExamDecision
from app.storage.work import Work
from app.wording.admissions import missing_text
from app.wording.dates import clock_text, day_text
from app.wording.exams import exam_state
from app.wording.languages import Language
from app.wording.practicals import PART_KINDS, VOID_CAUSES
from assessments.practicals.admission import Admission
from assessments.practicals.deciding import Outcome
from assessments.practicals.specification import Part, Practical
from curriculum.faults import N_
from curriculum.repertoire.edition import Edition

BEING_MARKED = N_("being marked")


@dataclass(frozen=True, slots=True)
class OwnExam:
    """One exam as its candidate finds it in the list."""

    id: str
    practical: str
    when: str
    room: str
    state: str
    state_kind: str
    decided: bool
    over: bool


@dataclass(frozen=True, slots=True)
class JudgedCriterion:
    """A criterion before the exam: `levels` are (level, sentence), the best last."""

    title: str
    watched: str
    weight: str
    levels: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class JudgedPart:
    """A part before the exam; `tasks` are names of exercises, empty while they are not given out."""

    title: str
    kind: str
    minutes: str
    weight: str
    tasks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OwnExamOverview:
    """One exam for its candidate or the director; `feedback` is None until a decision that carries one."""

    exam: OwnExam
    candidate: str
    edition: str
    outcome: str
    reason: str
    decided_on: str
    refer_parts: str
    follows: tuple[str, ...]
    again: str
    cause: str
    parts: tuple[JudgedPart, ...]
    criteria: tuple[JudgedCriterion, ...]
    feedback: ExamFeedback | None
    recording: tuple[str, ...]
    agreed: str
    may_agree: bool
    missing: tuple[str, ...]
    granted: str


def own_exams(work: Work, person_id: str, today: date, language: Language) -> tuple[OwnExam, ...]:
    """Every exam of a person, the next one first, then what is over, newest first."""
    exams = [exam for one in work.enrolments.of_person(person_id) for exam in work.exams.of_enrolment(one.id)]
    exams.sort(key=lambda one: (one.day, one.starts_minute, one.id))
    lines = [_own(work, exam, _decision(work, exam), today, language) for exam in exams]
    ahead = [line for line, exam in zip(lines, exams, strict=True) if exam.day >= today]
    behind = [line for line, exam in zip(lines, exams, strict=True) if exam.day < today]
    return (*ahead, *reversed(behind))


def own_exam_overview(work: Work, exam: Exam, today: date, language: Language) -> OwnExamOverview:
    """All that a candidate may know of one exam."""
    practical, decision = practical_of(work, exam), _decision(work, exam)
    enrolment = work.enrolments.by_id(exam.enrolment_id)
    stored = work.editions.by_id(enrolment.repertoire_id)
    edition = edition_from_documents(stored.documents) if stored else None
    recorded = recording_of(work, exam.id)
    line = _own(work, exam, decision, today, language)
    titles = {part.id: part.title for part in edition_of_exam(work, exam).parts}
    refer = [titles.get(one, one) for one in json.loads(decision.refer_parts)] if decision else []
    return OwnExamOverview(
        line,
        work.people.names()[enrolment.person_id],
        practical.edition,
        line.state if decision else "",
        decision.reason if decision else "",
        day_text(decision.decided_at.date(), language.locale) if decision else "",
        language.listed(refer),
        what_follows(decision, exercise_names(work, exam), language) if decision else (),
        again_text(work, exam, language),
        language(VOID_CAUSES[decision.void_cause]) if decision and decision.void_cause else "",
        tuple(_part(one, work, exam, decision is not None, today, edition, language) for one in practical.parts),
        _criteria(practical, language),
        _feedback(work, exam, practical, decision, edition, language),
        recording_rules(work, exam, language),
        recorded.agreed,
        decision is None and practical.recorded and not recorded.link and recorded.deleted_on is None,
        _missing(work, exam, today, language) if decision is None and practical.admission else (),
        (admission_of(work, exam.id) or Admission()).granted,
    )


def _missing(work: Work, exam: Exam, today: date, language: Language) -> tuple[str, ...]:
    """What the candidate still brings before the exam begins; nothing once they are admitted or it is waived."""
    admission = admission_of(work, exam.id) or Admission()
    found = () if admission.verdict else missing_of(work, exam, admission, today)
    return tuple(missing_text(one, language) for one in found)


def _decision(work: Work, exam: Exam) -> ExamDecision | None:
    return next(iter(reversed(work.exams.decisions(exam.id))), None)


def _own(work: Work, exam: Exam, decision: ExamDecision | None, today: date, language: Language) -> OwnExam:
    day, time = day_text(exam.day, language.locale), clock_text(exam.starts_minute, language.locale)
    if decision:
        words, kind = exam_state("decided", {"outcome": decision.outcome}, language)
    elif set_aside(work, exam.id):
        words, kind = exam_state("set-aside", {}, language)
    elif exam.day < today:
        words, kind = language(BEING_MARKED), "waiting"
    else:
        words, kind = exam_state("today" if exam.day == today else "coming", {}, language)
    when = language(N_("{day}, {time}"), day=day, time=time)
    return OwnExam(
        exam.id, practical_of(work, exam).title, when, exam.room, words, kind, decision is not None, exam.day <= today
    )


def _part(  # noqa: PLR0913 - what one part shows, and when
    part: Part, work: Work, exam: Exam, decided: bool, today: date, edition: Edition | None, language: Language
) -> JudgedPart:
    tasks = tasks_of(work, exam).get(part.id, []) if decided or is_given_out(part, exam, today) else []
    names = {one.id: one.name for one in edition.exercises} if edition else {}
    return JudgedPart(
        part.title, language(PART_KINDS[part.kind]), language.figure(part.minutes), language.figure(float(part.weight)),
        tuple(names.get(one, one) for one in tasks),
    )  # fmt: skip


def is_given_out(part: Part, exam: Exam, today: date) -> bool:
    """Whether a part's exercises are with the candidate: so many days before the exam, or never before it is over."""
    notice = part.exercises.notice_days if part.exercises else None
    return notice is not None and exam.day - timedelta(days=notice) <= today


def _criteria(practical: Practical, language: Language) -> tuple[JudgedCriterion, ...]:
    return tuple(
        JudgedCriterion(
            one.title,
            one.watched,
            language.figure(float(one.weight)),
            tuple(
                (language.figure(float(level)), one.sentence(level))
                for level in sorted(one.scale.levels(), key=one.scale.share)
            ),
        )
        for one in practical.criteria
    )


def _feedback(  # noqa: PLR0913 - what it is made of
    work: Work,
    exam: Exam,
    practical: Practical,
    decision: ExamDecision | None,
    edition: Edition | None,
    language: Language,
) -> ExamFeedback | None:
    """A void exam says nothing of its candidate."""
    if decision is None or decision.outcome == Outcome.VOID:
        return None
    found = result_of(work, exam)
    if found.scores.total is None:
        return None
    return exam_feedback(practical, found, sent_sheets(work, exam.id), edition, language)
