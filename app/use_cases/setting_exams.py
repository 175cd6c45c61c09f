"""What the director does before an exam: set it, state a tie, seat a further examiner."""

import json
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from app.queries.calibration_facts import uncalibrated
from app.queries.exam_facts import bookings, practical_of, ties_of
from app.queries.incidents import machines_out
from app.queries.retakes import last_attempt
from app.storage.enrolments import Enrolment
from app.storage.exams import Exam, KeptWaiver, StatedTie
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.wording.dates import day_text
from app.wording.exam_mails import exam_set
from assessments.hours.log_rules import clock_time
from assessments.practicals.deciding import Outcome, Tie, TieKind, Waiver
from assessments.practicals.setting import (
    BARS_EXAMINING,
    UNCALIBRATED,
    Booking,
    Setting,
    examining_faults,
    setting_faults,
)
from assessments.practicals.specification import Practical
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

STATED: tuple[TieKind, ...] = ("taught", "related")


@dataclass(frozen=True, slots=True)
class SetExam:
    """An exam as asked for; `id` was made by the form, so that sending it twice sets one exam.

    `waivers` are reasons by examiner; `starts` is minutes since midnight at the school.
    """

    id: str
    enrolment_id: str
    practical_id: str
    day: date
    starts: int
    room: str
    examiners: tuple[str, ...]
    waivers: Mapping[str, str] = field(default_factory=dict)

    @property
    def exam(self) -> Exam:
        return Exam(self.id, self.enrolment_id, self.practical_id, self.day, self.starts, self.room)


@dataclass(frozen=True, slots=True)
class StateTie:
    """What stands between a person and a candidate; `last_day` None while it lasts."""

    id: str
    person_id: str
    candidate_id: str
    kind: str
    last_day: date | None


def set_exam(store: Store, asker: Asker, request: SetExam) -> Exam:
    """Set the exam with its panel and its waivers; every fault at once, and then nothing is set."""
    with store.writing(asker.school.id) as work:
        exam = set_within(work, asker, request)
        work.commit()
    return exam


def set_within(work: Work, asker: Asker, request: SetExam) -> Exam:
    """The same within work that sets more than one exam, all or none."""
    known = work.exams.by_id(request.id)
    if known is not None:
        return _once(known, request.exam)
    enrolment = _enrolment(work, request)
    last = last_attempt(work, enrolment.person_id, practical_of(work, request.exam).id)
    exam = last.followed_by(work, request.exam) if last else request.exam
    waivers = _waivers(asker, request, enrolment)
    lacking = uncalibrated(work, practical_of(work, exam), request.examiners, request.day, asker.school.time_zone)
    _refuse(work, request, practical_of(work, exam), enrolment, waivers, lacking)
    work.exams.add(exam, request.examiners)
    keep_waivers(work, asker, request.id, ties_of(work, enrolment.person_id), waivers, lacking)
    body = {
        "exam": request.id, "enrolment": enrolment.id, "practical": exam.practical_id,
        "day": request.day.isoformat(), "starts": request.starts, "room": request.room,
        "examiners": sorted(request.examiners), "resit_of": exam.resit_of, "parts": json.loads(exam.parts),
    }  # fmt: skip
    work.record.append("exam-set", request.id, asker.person_id, asker.now, body)
    _tell(work, asker, request, enrolment)
    return exam


def _tell(work: Work, asker: Asker, request: SetExam, enrolment: Enrolment) -> None:
    """Mail to the candidate and to each examiner."""
    language, title = asker.language, practical_of(work, request.exam).title
    candidate = work.people.by_id(enrolment.person_id)
    day, time = day_text(request.day, language.locale), clock_time(request.starts)
    for id in (candidate.id, *request.examiners):
        person = work.people.by_id(id)
        own = (title, day, time, request.room, candidate.name, id == candidate.id, language)
        subject, words = exam_set(*own)
        work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now))


def state_tie(store: Store, asker: Asker, request: StateTie) -> None:
    """Put on record that a person taught or is related to a candidate."""
    with store.writing(asker.school.id) as work:
        people = work.people.names()
        faults = []
        if request.candidate_id not in people:
            raise NotFoundError
        if request.person_id not in people or request.person_id == request.candidate_id:
            faults.append(Fault("no-person", N_("choose a person"), field="person"))
        if request.kind not in STATED:
            faults.append(Fault("no-kind", N_("choose what stands between them"), field="kind"))
        if request.last_day and request.last_day > asker.today:
            faults.append(
                Fault("in-future", N_("this day is still to come; leave it open while it lasts"), field="last")
            )
        if faults:
            raise RefusedError(faults)
        if any(one.id == request.id for one in work.exams.ties(request.candidate_id)):
            return
        last = None if request.kind == "related" else request.last_day
        tie = (request.id, request.person_id, request.candidate_id, request.kind, last)
        work.exams.add_tie(StatedTie(*tie, asker.person_id, asker.now))
        body = {"person": request.person_id, "kind": request.kind, "last": last.isoformat() if last else ""}
        work.record.append("tie-stated", request.candidate_id, asker.person_id, asker.now, body)
        work.commit()


def seat_further_examiner(store: Store, asker: Asker, exam_id: str, examiner_id: str, reason: str) -> None:
    """Give an exam one further examiner for second marking; `reason` only where a tie must be waived."""
    with store.writing(asker.school.id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None:
            raise NotFoundError
        if work.exams.decisions(exam_id):
            raise ConflictError(N_("This exam is decided already."))
        if work.exams.second_markers(exam_id):
            raise ConflictError(N_("A further examiner is seated already."))
        candidate = work.enrolments.by_id(exam.enrolment_id).person_id
        ties = ties_of(work, candidate)
        waiver = Waiver(asker.person_id, examiner_id, candidate, reason) if reason.strip() else None
        lacking = uncalibrated(work, practical_of(work, exam), [examiner_id], exam.day, asker.school.time_zone)
        faults = _further_faults(work, exam, examiner_id, candidate, ties, waiver)
        if lacking and not waiver and not faults:
            faults.append(Fault("uncalibrated", UNCALIBRATED, field="examiner"))
        if faults:
            raise RefusedError(faults)
        work.exams.add_seat(exam_id, examiner_id, second_marking=True)
        keep_waivers(work, asker, exam_id, ties, {examiner_id: waiver} if waiver else {}, lacking)
        body = {"exam": exam_id, "examiner": examiner_id}
        work.record.append("further-examiner-seated", exam_id, asker.person_id, asker.now, body)
        work.commit()


def _once(known: Exam, wanted: Exam) -> Exam:
    same = known
    if known.resit_of:
        same = replace(known, practical_id=wanted.practical_id, tasks="{}", resit_of="", parts="[]")
    if same == wanted:
        return known
    raise ConflictError(N_("This exam is set already. Open the list of exams to see how it stands."))


def _enrolment(work: Work, request: SetExam) -> Enrolment:
    enrolment = work.enrolments.by_id(request.enrolment_id)
    edition = work.editions.by_id(request.practical_id)
    faults = []
    if enrolment is None:
        faults.append(Fault("no-candidate", N_("choose the candidate"), field="enrolment"))
    if edition is None or edition.kind != "practical":
        faults.append(Fault("no-practical", N_("choose the practical"), field="practical"))
    if faults:
        raise RefusedError(faults)
    return enrolment


def _waivers(asker: Asker, request: SetExam, enrolment: Enrolment) -> dict[str, Waiver]:
    return {
        examiner: Waiver(asker.person_id, examiner, enrolment.person_id, reason)
        for examiner, reason in request.waivers.items()
        if reason.strip()
    }


def _refuse(  # noqa: PLR0913 - what an exam is held against
    work: Work,
    request: SetExam,
    practical: Practical,
    enrolment: Enrolment,
    waivers: Mapping[str, Waiver],
    lacking: frozenset[str],
) -> None:
    wanted = Booking(
        enrolment.person_id,
        practical.id,
        request.day,
        request.starts,
        practical.minutes,
        request.room,
        request.examiners,
    )
    staff = frozenset(person.id for person in work.people.with_role("examiner") if person.left_at is None)
    others = tuple(one for one in bookings(work) if one.outcome is not Outcome.VOID)
    ties = ties_of(work, enrolment.person_id)
    held = (practical, wanted, enrolment.enrolled_on, staff, others, ties, waivers, lacking, machines_out(work))
    faults = setting_faults(Setting(*held))
    if faults:
        raise RefusedError(faults)


def keep_waivers(  # noqa: PLR0913 - what is waived, and what stands against it
    work: Work,
    asker: Asker,
    exam_id: str,
    ties: tuple[Tie, ...],
    waivers: Mapping[str, Waiver],
    lacking: frozenset[str],
) -> None:
    """A waiver is kept only where something stands against a place; a reason typed without need is no waiver."""
    for person, waiver in waivers.items():
        kinds = sorted({tie.kind for tie in ties if tie.person == person and tie.kind in BARS_EXAMINING})
        kinds += ["uncalibrated"] if person in lacking else []
        for kind in kinds:
            id, reason = secrets.token_hex(16), waiver.reason.strip()
            work.exams.add_waiver(KeptWaiver(id, exam_id, person, kind, reason, asker.person_id, asker.now))


def _further_faults(  # noqa: PLR0913 - what the seat is held against
    work: Work, exam: Exam, examiner_id: str, candidate: str, ties: tuple[Tie, ...], waiver: Waiver | None
) -> list[Fault]:
    staff = {person.id for person in work.people.with_role("examiner") if person.left_at is None}
    if examiner_id not in staff:
        return [Fault("no-examiner", N_("choose an examiner"), field="examiner")]
    if examiner_id in work.exams.seats(exam.id):
        return [Fault("same-examiner", N_("is on this panel already; choose another"), field="examiner")]
    if any(one.examiner_id == examiner_id for one in work.exam_seats.declines(exam.id)):
        return [Fault("declined", N_("declined this exam; choose another"), field="examiner")]
    months = practical_of(work, exam).months_apart
    found = examining_faults(examiner_id, candidate, ties, exam.day, months, waiver)
    return [replace(fault, field="examiner") for fault in found]
