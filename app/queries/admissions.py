"""Admission to an exam: what is asked for, what is missing, and how it was decided."""

from dataclasses import dataclass
from datetime import date

from app.files.exam_papers import read_admission
from app.queries.criteria import criteria_of
from app.queries.exam_facts import practical_of
from app.queries.lists import who_and_when
from app.queries.readiness import evidence_of
from app.queries.standing import standing_of
from app.storage.exam_papers import ADMISSION
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording import admissions as words
from app.wording.languages import Language
from assessments.practicals.admission import TICKED, Admission, Missing, may_begin, missing
from assessments.readiness.criteria import ReadinessCriteria
from assessments.readiness.report import report

Pairs = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class AdmissionOverview:
    """The admission of one exam; `missing` are sentences, `closed` says that a sheet is sent or the exam decided."""

    exam_id: str
    candidate: str
    practical: str
    when: str
    asked: tuple[str, ...]
    missing: tuple[str, ...]
    admission: Admission
    version: int
    verdict: str
    ticks: Pairs
    verdicts: Pairs
    closed: bool


def admission_of(work: Work, exam_id: str) -> Admission | None:
    """The admission as it stands, None where nobody has touched it."""
    paper = work.exam_papers.of(exam_id, ADMISSION)
    return read_admission(paper.content) if paper else None


def is_admitted(work: Work, exam: Exam) -> bool:
    """Whether the exam can begin."""
    asked = practical_of(work, exam).admission
    return not asked or may_begin(asked, admission_of(work, exam.id))


def missing_of(work: Work, exam: Exam, admission: Admission, today: date) -> tuple[Missing, ...]:
    """All that the practical's rules ask for and that is not there, documents held against the day of the exam."""
    asked = practical_of(work, exam).admission
    prerequisites, documents = _open_criteria(work, exam, today) if {*asked} - {*TICKED} else ((), ())
    return missing(asked, admission, prerequisites, documents)


def admission_overview(work: Work, exam: Exam, today: date, language: Language) -> AdmissionOverview:
    """The page of an exam's admission."""
    paper, practical = work.exam_papers.of(exam.id, ADMISSION), practical_of(work, exam)
    admission = admission_of(work, exam.id) or Admission()
    who, when = who_and_when(work, [exam], language)[exam.id]
    return AdmissionOverview(
        exam.id, who, practical.title, when,
        tuple(language(words.CHECKS[check]) for check in practical.admission),
        tuple(words.missing_text(one, language) for one in missing_of(work, exam, admission, today)),
        admission, paper.version if paper else 0, language(words.VERDICTS[admission.verdict]),
        tuple((check, language(words.CHECKS[check])) for check in TICKED if check in practical.admission),
        tuple((code, language(text)) for code, text in words.VERDICTS.items()),
        bool(work.exams.sheets(exam.id) or work.exams.decisions(exam.id)),
    )  # fmt: skip


def _open_criteria(work: Work, exam: Exam, today: date) -> tuple[list[str], list[str]]:
    """Titles of what readiness puts before the practical and of documents that do not stand on the day of the exam."""
    enrolment = work.enrolments.by_id(exam.enrolment_id)
    criteria = criteria_of(work.editions.by_id(enrolment.readiness_id))
    _, standing = standing_of(work, enrolment, today)
    evidence = evidence_of(work, enrolment, standing, today)
    lines = report(criteria, evidence, today, max(exam.day, today)).lines
    before = _before(criteria, practical_of(work, exam).id)
    return (
        [one.title for one in lines if one.id in before and not one.met],
        [one.title for one in lines if one.kind == "document" and one.id not in before and not one.met],
    )


def _before(criteria: ReadinessCriteria, practical: str) -> set[str]:
    """The ids of what readiness names as coming before a practical."""
    return {id for one in criteria.criteria if (one.kind, one.subject) == ("practical", practical) for id in one.after}


def told_of(work: Work, exam_id: str) -> str:
    """What an exam's examiners need to know of the adjustments granted."""
    admission = admission_of(work, exam_id)
    return admission.to_tell if admission else ""
