"""A day of exams as it stands: when, where and on what, who with whom, what is missing, and what can be seated again."""

from dataclasses import dataclass
from datetime import date

from app.files.exam_papers import read_clients
from app.queries.exam_facts import practical_of
from app.queries.exam_list import standing_of_exam
from app.storage.exam_papers import CLIENT
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording.dates import long_day, times_text
from app.wording.exam_clients import HERE
from app.wording.exams import exam_state
from app.wording.languages import Language
from assessments.practicals.exam_rooms import machines_in, room_name
from assessments.practicals.panel import Exam as Seated
from assessments.practicals.panel import is_connected
from curriculum.faults import N_

CLIENT_IS = N_("Client {code}: {here}")
NO_CLIENT = N_("No client is told yet.")


@dataclass(frozen=True, slots=True)
class DayExam:
    """One exam of the day; `begun` says that it is being scored, scored or decided, and stays where it is."""

    id: str
    starts: int
    minutes: int
    times: str
    candidate: str
    practical: str
    room: str
    room_name: str
    machines: str
    examiners: str
    client: str
    state: str
    state_kind: str
    begun: bool
    nobody_came: bool


@dataclass(frozen=True, slots=True)
class DayShown:
    """`linked` says whether all who examine that day are linked through shared candidates; `rooms` as they are written."""

    day: date
    title: str
    exams: tuple[DayExam, ...]
    linked: bool
    rooms: tuple[str, ...]


def exams_of_day(work: Work, day: date) -> list[Exam]:
    """That day's exams that are not void, in order of time."""
    decisions = work.exams.all_decisions()
    kept = [one for one in work.exams.all() if one.day == day]
    return [one for one in kept if one.id not in decisions or decisions[one.id].outcome != "void"]


def exam_days(work: Work, since: date) -> list[date]:
    """The days with exams from a day on."""
    return sorted({one.day for one in work.exams.all() if one.day >= since})


def is_begun(work: Work, exam: Exam) -> bool:
    """Whether anybody has put anything on a sheet of it, or it is decided."""
    if work.exams.decisions(exam.id) or work.exams.sheets(exam.id):
        return True
    seats = work.exams.seats(exam.id)
    return any(work.exams.draft(exam.id, one) or work.sheet_records.ids(exam.id, one) for one in seats)


def day_shown(work: Work, day: date, today: date, language: Language) -> DayShown:
    """One day; without exams where none are set."""
    exams, seats = exams_of_day(work, day), work.exams.all_seats()
    panels = [Seated(one.id, "", "", tuple(seats[one.id])) for one in exams if seats.get(one.id)]
    return DayShown(
        day,
        long_day(day, language.locale),
        tuple(_shown(work, one, seats.get(one.id, []), today, language) for one in exams),
        is_connected(panels),
        tuple(dict.fromkeys(one.room for one in exams if one.room)),
    )


def _shown(work: Work, exam: Exam, seats: list[str], today: date, language: Language) -> DayExam:
    names, practical = work.people.names(), practical_of(work, exam)
    decisions = work.exams.decisions(exam.id)
    senders = {one.examiner_id for one in work.exams.sheets(exam.id)}
    code, _, values = standing_of_exam(work, exam, decisions[-1] if decisions else None, senders, today)
    return DayExam(
        exam.id,
        exam.starts_minute,
        practical.minutes,
        times_text(exam.starts_minute, exam.starts_minute + practical.minutes, language),
        names[work.enrolments.by_id(exam.enrolment_id).person_id],
        practical.title,
        exam.room,
        room_name(exam.room),
        language.listed(list(machines_in(exam.room))),
        language.listed([names[one] for one in seats]),
        client_text(work, exam, language),
        *exam_state(code, values, language),
        is_begun(work, exam),
        _nobody_came(work, exam),
    )


def _nobody_came(work: Work, exam: Exam) -> bool:
    paper = work.exam_papers.of(exam.id, CLIENT)
    return paper is not None and read_clients(paper.content).here == "nobody"


def client_text(work: Work, exam: Exam, language: Language) -> str:
    """The client's code and whether they are here."""
    paper = work.exam_papers.of(exam.id, CLIENT)
    if paper is None:
        return language(NO_CLIENT)
    clients = read_clients(paper.content)
    return language(CLIENT_IS, code=clients.present.code, here=language(HERE[clients.here]))
