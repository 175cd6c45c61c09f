"""What one trainee still lacks for the certificate, in the order in which to clear it."""

from dataclasses import dataclass
from datetime import date

from app.queries.criteria import criteria_of
from app.queries.hours import Line, line_of
from app.queries.standing import facts_of, standing_of, summarised
from app.storage.enrolments import Enrolment
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording.languages import Language
from app.wording.readiness import answer, criterion_text, gap_text, waiting_on, waits_text
from assessments.hours.standing import Standing
from assessments.readiness.evidence import DocumentEvidence, Evidence, ModuleEvidence, PracticalEvidence
from assessments.readiness.from_hours import hours_evidence
from assessments.readiness.report import ReadinessReport, report

OUTCOMES = {"pass": "passed", "refer": "referred", "fail": "failed"}


@dataclass(frozen=True, slots=True)
class ReadinessOverview:
    """The report with its sentences; `gaps` are (who, what, waits for) in the order in which to clear them."""

    name: str
    report: ReadinessReport
    answer: str
    waiting_on: str
    line: Line
    criteria: tuple[tuple[str, str, bool], ...]
    gaps: tuple[tuple[str, str, str], ...]


def readiness_overview(
    work: Work, enrolment: Enrolment, name: str, today: date, language: Language
) -> ReadinessOverview:
    """The readiness of one enrolment today."""
    requirements, standing = standing_of(work, enrolment, today)
    criteria = criteria_of(work.editions.by_id(enrolment.readiness_id))
    made = report(criteria, evidence_of(work, enrolment, standing, today), today)
    titles = {one.id: one.title for one in made.lines}
    return ReadinessOverview(
        name,
        made,
        answer(made, language),
        waiting_on(made, language),
        line_of(enrolment, summarised(requirements, standing, facts_of(work, enrolment)), name, None, today, language),
        tuple((one.title, criterion_text(one, language), one.met) for one in made.lines),
        tuple((gap.title, gap_text(gap, language), waits_text(gap, titles, language)) for gap in made.gaps),
    )


def evidence_of(work: Work, enrolment: Enrolment, standing: Standing, today: date) -> Evidence:
    """What an enrolment can show today: hours, practicals, documents, modules."""
    subject = work.editions.by_id(enrolment.requirements_id).name
    return Evidence(
        hours=((subject, hours_evidence(standing)),),
        practicals=tuple(_practical(work, exam, today) for exam in work.exams.of_enrolment(enrolment.id)),
        documents=tuple(
            DocumentEvidence(shown.kind, True, shown.valid_from, shown.valid_to)
            for shown in work.enrolments.documents(enrolment.id)
        ),
        modules=tuple(
            ModuleEvidence(module, "completed", day)
            for module, day in work.enrolments.modules_done(enrolment.id).items()
        ),
    )


def _practical(work: Work, exam: Exam, today: date) -> PracticalEvidence:
    name = work.editions.by_id(exam.practical_id).name
    decisions = work.exams.decisions(exam.id)
    if decisions and decisions[-1].outcome in OUTCOMES:
        return PracticalEvidence(name, OUTCOMES[decisions[-1].outcome], exam.day)
    sent = {sheet.examiner_id for sheet in work.exams.sheets(exam.id)}
    if exam.day > today or not sent:
        return PracticalEvidence(name, "booked", exam.day)
    state = "deciding" if sent >= set(work.exams.seats(exam.id)) else "marking"
    return PracticalEvidence(name, state, exam.day)
