"""A whole day of exams: proposed with panels that can be compared, then set all at once."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from app.queries.calibration_facts import uncalibrated
from app.queries.exam_days import Waived, day_conflicts, may_sit
from app.queries.exam_facts import practical_edition
from app.storage.exams import Exam
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.setting_exams import SetExam, set_within
from assessments.practicals.exam_day import DayPlan, day_plan, slots
from assessments.practicals.panel import Examiner
from curriculum.faults import N_, ConflictError, Fault, RefusedError


@dataclass(frozen=True, slots=True)
class PlanDay:
    """A day as asked for; `first` is minutes since midnight, `number` how many begin one after another in a room."""

    practical_id: str
    day: date
    first: int
    pause: int
    number: int
    rooms: tuple[str, ...]
    enrolments: tuple[str, ...]
    examiners: tuple[str, ...]
    experienced: tuple[str, ...]
    most: int
    in_a_row: int
    waived: tuple[str, ...] = ()
    waiver: str = ""


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """A proposal, and what stands against a place by (enrolment, examiner), where the director waives it."""

    plan: DayPlan
    waived: Waived


def plan_day(work: Work, request: PlanDay, zone: str) -> PlannedDay:
    """A proposal; `RefusedError` names the count or the conflict that prevents it, in the names of people.

    Whoever is `waived` may examine without a calibration, and is seated with candidates they are tied to where nobody
    else can be.
    """
    practical = practical_edition(work, request.practical_id)
    free = {one.id: one for one in may_sit(work, practical, request.day)}
    staff = {one.id for one in work.people.with_role("examiner") if one.left_at is None}
    if not set(request.enrolments) <= set(free) or not set(request.examiners) <= staff:
        raise ConflictError(N_("Somebody chosen here may no longer sit or examine. Open the page again."))
    examiners = tuple(Examiner(id, id in request.experienced, 0, request.most) for id in request.examiners)
    enrolments = [free[id] for id in request.enrolments]
    found = day_conflicts(work, practical, enrolments, list(request.examiners), request.day)
    lacking = uncalibrated(work, practical, request.examiners, request.day, zone)
    _refuse_lacking(work, lacking - set(request.waived))
    avoided = {pair: codes for pair, codes in found.items() if pair[1] in request.waived and "own-exam" not in codes}
    begins = slots(request.first, practical.minutes, request.pause, request.number)
    chosen = (request.enrolments, examiners, frozenset(found.keys() - avoided.keys()), begins, request.rooms)
    lacks = {(enrolment, examiner): ("uncalibrated",) for enrolment in request.enrolments for examiner in lacking}
    waived = {pair: (*avoided.get(pair, ()), *lacks.get(pair, ())) for pair in avoided.keys() | lacks.keys()}
    try:
        return PlannedDay(day_plan(*chosen, practical.examiners, frozenset(waived), request.in_a_row), waived)
    except RefusedError as refusal:
        raise RefusedError([_named(work, fault) for fault in refusal.faults]) from refusal


def _refuse_lacking(work: Work, lacking: frozenset[str]) -> None:
    """Name everybody who was chosen without a calibration and without a reason."""
    names = work.people.names()
    sentence = N_("{name} has no calibration that holds on this day: leave them out, or say below why they examine")
    if lacking:
        faults = [Fault("uncalibrated", sentence, {"name": names[one]}, "examiners") for one in sorted(lacking)]
        raise RefusedError(faults)


def _named(work: Work, fault: Fault) -> Fault:
    """A fault that names ids with the names of their people in place."""
    names = work.people.names()
    names |= {one.id: names[one.person_id] for one in work.enrolments.all()}
    values = dict(fault.values)
    for key, value in values.items():
        for id in sorted(names, key=len, reverse=True) if isinstance(value, str) else ():
            values[key] = values[key].replace(id, names[id])
    return Fault(fault.code, fault.sentence, values, FIELDS.get(fault.code, ""))


FIELDS = {
    "past-midnight": "number", "conflict": "enrolments", "few-places": "rooms", "few-at-once": "number", "few-seats": "most",
    "few-seniors": "experienced", "untimed": "number",
}  # fmt: skip


def set_day(store: Store, asker: Asker, exams: Sequence[SetExam]) -> list[Exam]:
    """Set every exam of a day, or none; a fault's source is the candidate it is about."""
    faults: list[Fault] = []
    with store.writing(asker.school.id) as work:
        names = work.people.names()
        people = {one.id: names[one.person_id] for one in work.enrolments.all()}
        kept = []
        for one in exams:
            try:
                kept.append(set_within(work, asker, one))
            except RefusedError as refusal:
                who = people.get(one.enrolment_id, one.enrolment_id)
                faults += [replace(fault, field="").within(who) for fault in refusal.faults]
        if faults:
            raise RefusedError(faults)
        work.commit()
    return kept
