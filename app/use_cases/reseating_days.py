"""The rest of a day seated again: late running, a machine withdrawn, a client who is not there."""

import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from app.queries.day_plan import exams_of_day, is_begun
from app.queries.exam_facts import bookings_but, practical_of
from app.storage.exams import Exam
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.wording.dates import day_text
from app.wording.exam_mails import exam_moved
from assessments.hours.log_rules import clock_time
from assessments.practicals.deciding import Outcome
from assessments.practicals.exam_day import slots
from assessments.practicals.reseating import Held, Moved, reseat
from assessments.practicals.setting import Booking, Setting, nobody_and_no_room_is_taken
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

LONGEST = 400
CHANGED = N_("An exam of this day was changed or begun meanwhile. Plan the rest again.")


@dataclass(frozen=True, slots=True)
class SeatAgain:
    """What is asked for: the `exams` still to be held, those of them that come `last`, from which minute on.

    `late` is by how many minutes what goes on runs over; `number` exams begin one after another in a room.
    """

    day: date
    first: int
    pause: int
    number: int
    late: int
    rooms: tuple[str, ...]
    exams: tuple[str, ...]
    last: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Move:
    """Where an exam was when this was proposed, and where it goes."""

    exam_id: str
    was_starts: int
    was_room: str
    starts: int
    room: str


def plan_again(work: Work, request: SeatAgain) -> tuple[Moved, ...]:
    """A proposal for what is ticked and not begun; panels stay. `RefusedError` says what does not fit."""
    known = {one.id: one for one in exams_of_day(work, request.day)}
    begun = {id for id, one in known.items() if is_begun(work, one)}
    chosen = [known[id] for id in request.exams if id in known and id not in begun]
    if not chosen or len(chosen) < len(set(request.exams)):
        raise ConflictError(CHANGED)
    rest = [_held(work, one, one.id in request.last) for one in chosen]
    over = [_held(work, known[id], late=request.late) for id in begun]
    going_on = [one for one in over if one.starts + one.minutes > request.first]
    begins = slots(request.first, max(one.minutes for one in rest), request.pause, request.number)
    return reseat(rest, going_on, begins, request.rooms)


def keep_again(store: Store, asker: Asker, day: date, moves: Sequence[Move], reason: str) -> int:
    """Keep a proposal, all or nothing, and tell everybody whose exam has moved; how many have."""
    with store.writing(asker.school.id) as work:
        if not reason.strip():
            raise RefusedError([Fault("no-reason", N_("say why the day changes"), field="reason")])
        if len(reason) > LONGEST:
            raise RefusedError([Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, "reason")])
        known = {one.id: one for one in exams_of_day(work, day)}
        moving = [one for one in moves if (one.was_starts, one.was_room) != (one.starts, one.room)]
        for one in moving:
            exam = known.get(one.exam_id)
            if exam is None:
                raise NotFoundError
            if (exam.starts_minute, exam.room) == (one.starts, one.room):
                continue
            if (exam.starts_minute, exam.room) != (one.was_starts, one.was_room) or is_begun(work, exam):
                raise ConflictError(CHANGED)
            _move(work, asker, exam, one, reason.strip())
        _refuse_taken(work, day)
        work.commit()
    return len(moving)


def _held(work: Work, exam: Exam, last: bool = False, late: int = 0) -> Held:
    people = (*work.exams.seats(exam.id), exam.enrolment_id)
    return Held(exam.id, exam.starts_minute, practical_of(work, exam).minutes + late, exam.room, people, last)


def _move(work: Work, asker: Asker, exam: Exam, one: Move, reason: str) -> None:
    work.exams.move(exam.id, one.starts, one.room)
    body = {"exam": exam.id, "starts": one.starts, "room": one.room, "was": one.was_starts, "reason": reason}
    work.record.append("exam-moved", exam.id, asker.person_id, asker.now, body)
    language, title = asker.language, practical_of(work, exam).title
    candidate = work.people.by_id(work.enrolments.by_id(exam.enrolment_id).person_id)
    day = day_text(exam.day, language.locale)
    subject, words = exam_moved(title, candidate.name, day, clock_time(one.starts), one.room, language)
    for id in (candidate.id, *work.exams.seats(exam.id)):
        person = work.people.by_id(id)
        work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now))


def _refuse_taken(work: Work, day: date) -> None:
    """Nobody, no room and no machine in two exams at once, whatever came back from the page."""
    for exam in exams_of_day(work, day):
        practical = practical_of(work, exam)
        when = (exam.day, exam.starts_minute, practical.minutes, exam.room, tuple(work.exams.seats(exam.id)))
        candidate = work.enrolments.by_id(exam.enrolment_id).person_id
        others = tuple(one for one in bookings_but(work, exam.id) if one.outcome is not Outcome.VOID)
        setting = Setting(practical, Booking(candidate, practical.id, *when), exam.day, frozenset(), others)
        if any(nobody_and_no_room_is_taken(setting)):
            raise ConflictError(CHANGED)
