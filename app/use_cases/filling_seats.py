"""Places on panels: an examiner declines one with a reason, the director seats somebody else."""

import secrets
from dataclasses import replace

from app.queries.calibration_facts import uncalibrated
from app.queries.exam_facts import bookings_but, practical_of, ties_of
from app.queries.exam_seats import open_places
from app.storage.exam_seats import SeatDecline
from app.storage.exams import Exam
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.exams import own_exam
from app.use_cases.keeping_proof import mail_directors
from app.use_cases.setting_exams import keep_waivers
from app.wording.dates import day_text
from app.wording.exam_mails import exam_set, seat_declined
from assessments.hours.log_rules import clock_time
from assessments.practicals.deciding import Outcome, Waiver
from assessments.practicals.setting import Booking, Setting, seat_faults
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

LONGEST = 400


def decline_seat(store: Store, asker: Asker, exam_id: str, reason: str) -> None:
    """Give a place up with a reason; the directors are told, the sheet is closed to this examiner from then on."""
    with store.writing(asker.school.id) as work:
        if any(one.examiner_id == asker.person_id for one in work.exam_seats.declines(exam_id)):
            return
        exam = own_exam(work, exam_id, asker.person_id)
        if work.exams.decisions(exam_id) or any(
            one.examiner_id == asker.person_id for one in work.exams.sheets(exam_id)
        ):
            raise ConflictError(N_("Your sheet is sent, or the exam is decided: there is nothing to decline any more."))
        reason = reason.strip()
        if not reason:
            raise RefusedError([Fault("no-reason", N_("say why; the school reads it"), field="reason")])
        if len(reason) > LONGEST:
            raise RefusedError([Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, "reason")])
        work.exam_seats.decline(SeatDecline(exam_id, asker.person_id, reason, asker.now))
        body = {"exam": exam_id, "examiner": asker.person_id, "reason": reason}
        work.record.append("seat-declined", exam_id, asker.person_id, asker.now, body)
        candidate = work.people.by_id(work.enrolments.by_id(exam.enrolment_id).person_id)
        day = day_text(exam.day, asker.language.locale)
        mail_directors(work, asker, *seat_declined(asker.name, candidate.name, day, reason, asker.language))
        work.commit()


def fill_seat(store: Store, asker: Asker, exam_id: str, examiner_id: str, reason: str) -> None:
    """Seat somebody in an open place; `reason` only where a tie or a missing calibration must be waived."""
    with store.writing(asker.school.id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None:
            raise NotFoundError
        if examiner_id in work.exams.seats(exam_id):
            return
        if not open_places(work, exam):
            raise ConflictError(N_("No place on this panel is open any more."))
        candidate = work.enrolments.by_id(exam.enrolment_id).person_id
        waivers = {examiner_id: Waiver(asker.person_id, examiner_id, candidate, reason)} if reason.strip() else {}
        setting = seat_setting(work, asker, exam, candidate, examiner_id)
        faults = [*seat_faults(replace(setting, waivers=waivers))]
        if any(one.examiner_id == examiner_id for one in work.exam_seats.declines(exam_id)):
            faults.append(Fault("declined", N_("declined this exam; choose another"), field="examiner"))
        if len(reason) > LONGEST:
            faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, "waiver"))
        if faults:
            raise RefusedError(faults)
        work.exams.add_seat(exam_id, examiner_id)
        keep_waivers(work, asker, exam_id, setting.ties, waivers, setting.uncalibrated)
        body = {"exam": exam_id, "examiner": examiner_id}
        work.record.append("seat-filled", exam_id, asker.person_id, asker.now, body)
        _tell(work, asker, exam, candidate, examiner_id)
        work.commit()


def seat_setting(work: Work, asker: Asker, exam: Exam, candidate: str, examiner_id: str) -> Setting:
    """The exam as it stands, for one examiner."""
    practical, zone = practical_of(work, exam), asker.school.time_zone
    when = (exam.day, exam.starts_minute, practical.minutes)
    wanted = Booking(candidate, practical.id, *when, "", (examiner_id,))
    staff = frozenset(one.id for one in work.people.with_role("examiner") if one.left_at is None)
    others = tuple(one for one in bookings_but(work, exam.id) if one.outcome is not Outcome.VOID)
    lacking = uncalibrated(work, practical, [examiner_id], exam.day, zone)
    return Setting(practical, wanted, exam.day, staff, others, ties_of(work, candidate), {}, lacking)


def _tell(work: Work, asker: Asker, exam: Exam, candidate: str, examiner_id: str) -> None:
    language, person = asker.language, work.people.by_id(examiner_id)
    title, day = practical_of(work, exam).title, day_text(exam.day, language.locale)
    own = (title, day, clock_time(exam.starts_minute), exam.room, work.people.by_id(candidate).name, False, language)
    work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, *exam_set(*own), asker.now))
