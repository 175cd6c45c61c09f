"""Examiners invited from outside: a private link to one exam, no password, and nothing else of the school."""

import hashlib
import secrets
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from app.permissions import OUTSIDER
from app.queries.exam_facts import practical_of, ties_of
from app.queries.exam_seats import open_places
from app.storage.exam_seats import Invitation
from app.storage.exams import Exam, KeptWaiver
from app.storage.mail import OutgoingMail
from app.storage.people import Person
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.filling_seats import seat_setting
from app.use_cases.setting_exams import keep_waivers
from app.wording.dates import day_text
from app.wording.exam_mails import invited
from assessments.hours.log_rules import clock_time
from assessments.practicals.deciding import Waiver
from assessments.practicals.setting import nobody_and_no_room_is_taken
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

# Days after the exam for sending, talking and a correction.
DAYS_AFTER = 14
LONGEST = 400
# No hash of any password: nobody signs in with one.
NO_PASSWORD = "!"


@dataclass(frozen=True, slots=True)
class Invite:
    """Who is asked, and why the school needs somebody from outside."""

    exam_id: str
    name: str
    email: str
    reason: str


def invite_outsider(store: Store, asker: Asker, request: Invite, address: str) -> None:
    """Seat somebody from outside in an open place and mail them their link, which begins with `address`."""
    with store.writing(asker.school.id) as work:
        exam = work.exams.by_id(request.exam_id)
        if exam is None:
            raise NotFoundError
        known = work.people.by_email(request.email.strip())
        if known and known.id in work.exams.seats(exam.id):
            return
        if not open_places(work, exam):
            raise ConflictError(N_("No place on this panel is open any more."))
        faults = _faults(work, request, known)
        candidate = work.enrolments.by_id(exam.enrolment_id).person_id
        if known and not faults:
            setting = seat_setting(work, asker, exam, candidate, known.id)
            taken = nobody_and_no_room_is_taken(setting)
            faults += [replace(one, field="email") for one in taken if one.field == "examiner-0"]
            if any(one.examiner_id == known.id for one in work.exam_seats.declines(exam.id)):
                faults.append(Fault("declined", N_("declined this exam; choose another"), field="email"))
        if faults:
            raise RefusedError(faults)
        person = known or _person(work, request, asker.now)
        _seat(work, asker, exam, person, request.reason.strip())
        waiver = Waiver(asker.person_id, person.id, candidate, request.reason)
        keep_waivers(work, asker, exam.id, ties_of(work, candidate), {person.id: waiver}, frozenset())
        _mail(work, asker, exam, person, candidate, address)
        work.commit()


def withdraw_outsider(store: Store, asker: Asker, exam_id: str, person_id: str) -> None:
    """Take an invitation back: the place is free, the link and every sign-in by it are over."""
    with store.writing(asker.school.id) as work:
        if work.exams.by_id(exam_id) is None or OUTSIDER not in work.people.roles(person_id):
            raise NotFoundError
        if person_id not in work.exams.seats(exam_id):
            return
        if any(one.examiner_id == person_id for one in work.exams.sheets(exam_id)):
            raise ConflictError(N_("Their sheet is sent; it stays."))
        work.exam_seats.free(exam_id, person_id)
        work.exam_seats.withdraw_invitations(exam_id, person_id)
        work.sign_ins.end_all_of(person_id)
        body = {"exam": exam_id, "examiner": person_id}
        work.record.append("invitation-withdrawn", exam_id, asker.person_id, asker.now, body)
        work.commit()


def open_invitation(store: Store, school_id: str, token: str, now: datetime) -> str:
    """Sign the holder of a private link in: the secret of a new sign-in that ends with the link."""
    with store.writing(school_id) as work:
        found = work.exam_seats.invitation(hashlib.sha256(token.encode()).hexdigest(), now)
        if found is None:
            raise NotFoundError
        fresh = secrets.token_urlsafe(32)
        work.sign_ins.start(hashlib.sha256(fresh.encode()).hexdigest(), found.person_id, now, found.ends_at)
        work.commit()
    return fresh


def _faults(work: Work, request: Invite, known: Person | None) -> list[Fault]:
    faults = []
    if not request.name.strip():
        faults.append(Fault("no-name", N_("give their name"), field="name"))
    before, _, domain = request.email.strip().partition("@")
    if not (before and "." in domain) or " " in request.email.strip():
        faults.append(Fault("no-email", N_("give their email address"), field="email"))
    if not request.reason.strip():
        faults.append(Fault("no-reason", N_("say why the school needs somebody from outside"), field="reason"))
    if known and (OUTSIDER not in work.people.roles(known.id) or known.left_at):
        faults.append(Fault("has-account", N_("has an account at the school; seat them as an examiner"), field="email"))
    faults += [
        Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, field)
        for field in ("name", "email", "reason")
        if len(getattr(request, field)) > LONGEST
    ]
    return faults


def _person(work: Work, request: Invite, now: datetime) -> Person:
    person = Person(secrets.token_hex(16), request.name.strip(), request.email.strip(), NO_PASSWORD)
    work.people.add(person, frozenset({OUTSIDER}), now)
    return person


def _seat(work: Work, asker: Asker, exam: Exam, person: Person, reason: str) -> None:
    """The reason stands as a waiver: nobody from outside is calibrated here."""
    work.exams.add_seat(exam.id, person.id)
    waiver = (secrets.token_hex(16), exam.id, person.id, "invited", reason, asker.person_id, asker.now)
    work.exams.add_waiver(KeptWaiver(*waiver))
    body = {"exam": exam.id, "examiner": person.id, "reason": reason}
    work.record.append("outsider-invited", exam.id, asker.person_id, asker.now, body)


def _mail(work: Work, asker: Asker, exam: Exam, person: Person, candidate: str, address: str) -> None:
    token, language = secrets.token_urlsafe(32), asker.language
    ends = asker.now + timedelta(days=max(0, (exam.day - asker.today).days) + DAYS_AFTER)
    hashed = hashlib.sha256(token.encode()).hexdigest()
    work.exam_seats.invite(Invitation(hashed, exam.id, person.id, asker.now, ends))
    subject, words = invited(
        asker.school.name, practical_of(work, exam).title, day_text(exam.day, language.locale),
        clock_time(exam.starts_minute), exam.room, work.people.by_id(candidate).name,
        f"{address}/invited/{asker.school.id}.{token}", day_text(ends.date(), language.locale), language,
    )  # fmt: skip
    work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now))
