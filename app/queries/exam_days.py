"""A day of exams before it is set: who may sit, who may examine whom, and the proposal in words."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from app.queries.calibration_facts import uncalibrated
from app.queries.enrolled import enrolled_now
from app.queries.exam_facts import bookings, practical_edition, ties_of
from app.queries.exam_list import practicals_on_offer
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.wording.dates import clock_text
from app.wording.exams import LACKS, WAIVES
from app.wording.languages import Language
from assessments.practicals.exam_day import DayPlan
from assessments.practicals.setting import Booking, Setting, an_attempt_is_left, examining_faults
from assessments.practicals.specification import Practical

Waived = Mapping[tuple[str, str], tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class DayChoices:
    """What a day can be made of: (value, words) pairs; `experienced` are examiners who have sent a sheet before.

    `examiners` say who has no calibration that day (`lacking`), `names` are theirs alone.
    """

    title: str
    practicals: tuple[tuple[str, str], ...]
    minutes: int
    panel: int
    candidates: tuple[tuple[str, str], ...]
    examiners: tuple[tuple[str, str], ...]
    experienced: tuple[str, ...]
    lacking: frozenset[str]
    names: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class ProposedExam:
    """One line of a proposal: ids as the form carries them, the same in words, and what is waived for it."""

    enrolment_id: str
    starts: int
    room: str
    examiner_ids: tuple[str, ...]
    candidate: str
    when: str
    examiners: str
    waived: tuple[str, ...]


def day_choices(work: Work, practical_id: str, day: date, zone: str, language: Language) -> DayChoices:
    """What can be chosen for a practical on a day; `NotFoundError` where there is no such practical."""
    practical, names = practical_edition(work, practical_id), work.people.names()
    senders = {one for exam in work.exams.senders().values() for one in exam}
    examiners = tuple((one.id, one.name) for one in work.people.with_role("examiner") if one.left_at is None)
    lacking = uncalibrated(work, practical, [id for id, _ in examiners], day, zone)
    shown = tuple((id, language(LACKS, name=name) if id in lacking else name) for id, name in examiners)
    candidates = sorted((names[one.person_id], one.id) for one in may_sit(work, practical, day))
    return DayChoices(
        practical.title,
        tuple(practicals_on_offer(work)),
        practical.minutes,
        practical.examiners,
        tuple((id, name) for name, id in candidates),
        shown,
        tuple(id for id, _ in examiners if id in senders),
        lacking,
        examiners,
    )


def may_sit(work: Work, practical: Practical, day: date) -> list[Enrolment]:
    """Who is enrolled and has an attempt at this practical left on that day."""
    others = bookings(work)
    return [one for one in enrolled_now(work) if not _attempt_faults(one, practical, day, others)]


def _attempt_faults(one: Enrolment, practical: Practical, day: date, others: tuple[Booking, ...]) -> tuple:
    wanted = Booking(one.person_id, practical.id, day, 0, practical.minutes, "", ())
    return tuple(an_attempt_is_left(Setting(practical, wanted, one.enrolled_on, frozenset(), others)))


def day_conflicts(
    work: Work, practical: Practical, enrolments: list[Enrolment], examiners: list[str], day: date
) -> dict[tuple[str, str], tuple[str, ...]]:
    """(enrolment, examiner) pairs that the rules keep apart, and why: codes of `wording.exams.WAIVES`."""
    found = {}
    for one in enrolments:
        ties = ties_of(work, one.person_id)
        for examiner in examiners:
            faults = examining_faults(examiner, one.person_id, ties, day, practical.months_apart)
            if faults:
                found[one.id, examiner] = tuple(fault.code for fault in faults)
    return found


def proposed(work: Work, plan: DayPlan, waived: Waived, language: Language) -> tuple[ProposedExam, ...]:
    """The proposal in the order of the day; `waived` says by (enrolment, examiner) what stands against a place."""
    names = work.people.names()
    people = {one.id: one.person_id for one in work.enrolments.all()}
    return tuple(
        ProposedExam(
            one.candidate, int(one.slot), one.room, one.examiners, names[people[one.candidate]],
            clock_text(int(one.slot), language.locale), language.listed([names[id] for id in one.examiners]),
            tuple(
                language(WAIVES[code], person=names[id])
                for id in one.examiners for code in waived.get((one.candidate, id), ())
            ),
        )
        for one in plan.exams
    )  # fmt: skip
