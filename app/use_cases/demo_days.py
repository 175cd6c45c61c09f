"""A day of exams of the demo school in some weeks, in rooms with their machines; one place on a panel is open. All invented."""

from datetime import datetime, timedelta

from app.clock import day_in
from app.storage.exam_seats import SeatDecline
from app.storage.exams import Exam
from app.storage.work import School, Store

DAYS_AHEAD = 19
PRACTICAL = "practical-basic"
EXAMS = (
    ("exam-of-a-day-1", "enrolment-6", 9 * 60, "North room: reformer 1, trapeze table 1", ("examiner-1", "examiner-4")),
    ("exam-of-a-day-2", "enrolment-8", 9 * 60, "River studio: reformer 2, chair 1", ("examiner-2", "examiner-3")),
)
DECLINED = ("exam-of-a-day-2", "examiner-3", "I am away that week after all; sorry to say so late.")


def add_demo_day(store: Store, school: School, now: datetime) -> None:
    """Two exams at the same time, and one examiner who declined."""
    day, at = day_in(now + timedelta(days=DAYS_AHEAD), school.time_zone), now - timedelta(days=3)
    with store.writing(school.id) as work:
        for id, enrolment, starts, room, examiners in EXAMS:
            work.exams.add(Exam(id, enrolment, PRACTICAL, day, starts, room), examiners)
            body = {
                "exam": id, "enrolment": enrolment, "practical": PRACTICAL, "day": day.isoformat(), "starts": starts,
                "room": room, "examiners": [*examiners],
            }  # fmt: skip
            work.record.append("exam-set", id, "director", at, body)
        exam, examiner, reason = DECLINED
        work.exam_seats.decline(SeatDecline(exam, examiner, reason, now - timedelta(days=1)))
        body = {"exam": exam, "examiner": examiner, "reason": reason}
        work.record.append("seat-declined", exam, examiner, now - timedelta(days=1), body)
        work.commit()
