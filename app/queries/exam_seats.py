"""The panel of one exam as the director fills it: who sits, who declined and why, which places are open, who could."""

from dataclasses import dataclass

from app.permissions import OUTSIDER
from app.queries.calibration_facts import uncalibrated
from app.queries.exam_facts import first_examiners, practical_of, ties_of
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording.dates import clock_text, day_text, moment_text
from app.wording.exams import LACKS, WAIVES
from app.wording.languages import Language
from assessments.practicals.setting import examining_faults
from curriculum.faults import N_

DECLINED = N_("{name} declined on {at}: {reason}")
STANDS = N_("{name}: {why}")


@dataclass(frozen=True, slots=True)
class PanelOverview:
    """`choices` are (id, words) of those who can be seated, `outsiders` (id, name) of those invited from outside whose
    sheet is not sent; `open` is how many places are."""

    exam_id: str
    candidate: str
    practical: str
    when: str
    seats: tuple[str, ...]
    declined: tuple[str, ...]
    open: int
    outsiders: tuple[tuple[str, str], ...]
    choices: tuple[tuple[str, str], ...]


def open_places(work: Work, exam: Exam) -> int:
    """How many first examiners are missing, unless the exam is decided."""
    if work.exams.decisions(exam.id):
        return 0
    return max(0, practical_of(work, exam).examiners - len(first_examiners(work, exam.id)))


def panel_overview(work: Work, exam: Exam, zone: str, language: Language) -> PanelOverview:
    """One exam's panel."""
    names = work.people.names()
    candidate = work.enrolments.by_id(exam.enrolment_id).person_id
    day, time = day_text(exam.day, language.locale), clock_text(exam.starts_minute, language.locale)
    return PanelOverview(
        exam.id,
        names[candidate],
        practical_of(work, exam).title,
        language(N_("{day}, {time}"), day=day, time=time),
        tuple(names[one] for one in work.exams.seats(exam.id)),
        tuple(
            language(
                DECLINED,
                name=names[one.examiner_id],
                at=moment_text(one.declined_at, zone, language.locale),
                reason=one.reason,
            )
            for one in work.exam_seats.declines(exam.id)
        ),
        open_places(work, exam),
        _outsiders(work, exam),
        _choices(work, exam, candidate, zone, language),
    )


def _outsiders(work: Work, exam: Exam) -> tuple[tuple[str, str], ...]:
    sent = {one.examiner_id for one in work.exams.sheets(exam.id)}
    seats = set(work.exams.seats(exam.id)) - sent
    return tuple((one.id, one.name) for one in work.people.with_role(OUTSIDER) if one.id in seats)


def _choices(work: Work, exam: Exam, candidate: str, zone: str, language: Language) -> tuple[tuple[str, str], ...]:
    """Examiners who are not on the panel and did not decline, with what stands against them."""
    practical, ties = practical_of(work, exam), ties_of(work, candidate)
    out = {*work.exams.seats(exam.id), *(one.examiner_id for one in work.exam_seats.declines(exam.id)), candidate}
    free = [one for one in work.people.with_role("examiner") if one.left_at is None and one.id not in out]
    lacking = uncalibrated(work, practical, [one.id for one in free], exam.day, zone)
    found = []
    for one in free:
        faults = examining_faults(one.id, candidate, ties, exam.day, practical.months_apart)
        words = language(LACKS, name=one.name) if one.id in lacking else one.name
        why = [language(WAIVES[fault.code], person=one.name) for fault in faults]
        found.append((one.id, language(STANDS, name=words, why=" ".join(why)) if why else words))
    return tuple(found)
