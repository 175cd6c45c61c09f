"""What stands of an exam: its practical, sheets, ties, result, and what takes whose time."""

import json
from datetime import date
from fractions import Fraction
from functools import lru_cache

from app.files.exam_papers import read_clients
from app.files.practicals import practical_from_text
from app.files.seasons import read_picture
from app.files.sheets import read_sheet
from app.storage.enrolments import Enrolment
from app.storage.exam_papers import CLIENT
from app.storage.exams import Exam
from app.storage.work import Work
from assessments.practicals.deciding import Outcome, Tie
from assessments.practicals.resit import Again, only_parts, still_counts
from assessments.practicals.result import Result, result
from assessments.practicals.screening import with_swaps
from assessments.practicals.setting import Booking
from assessments.practicals.sheets import Sheet, standing
from assessments.practicals.specification import Practical
from curriculum.faults import NotFoundError


def practical_of(work: Work, exam: Exam) -> Practical:
    """The edition that the exam is scored by, with the parts alone that a further attempt takes again."""
    return only_parts(edition_of_exam(work, exam), json.loads(exam.parts))


def edition_of_exam(work: Work, exam: Exam) -> Practical:
    """The whole edition that the exam is scored by."""
    return practical_in(json.dumps(work.editions.by_id(exam.practical_id).documents, sort_keys=True))


def practical_edition(work: Work, practical_id: str) -> Practical:
    """An edition of a practical; `NotFoundError` when there is none of that id."""
    edition = work.editions.by_id(practical_id)
    if edition is None or edition.kind != "practical":
        raise NotFoundError
    return practical_in(json.dumps(edition.documents, sort_keys=True))


@lru_cache(maxsize=64)
def practical_in(documents: str) -> Practical:
    """The practical of a published edition's documents (JSON); editions never change, so each is read once."""
    found = json.loads(documents)
    name = min(found)
    return practical_from_text(found[name], name)


def tasks_of(work: Work, exam: Exam) -> dict[str, list[str]]:
    """The exercises of each part of an exam that has them named or drawn: ids, in order, as swapped for its client."""
    paper = work.exam_papers.of(exam.id, CLIENT)
    swaps = read_clients(paper.content).swaps if paper else ()
    named = with_swaps(listed_tasks(work, exam), swaps) if swaps else {}
    return _named_or_drawn(work, exam) | {part: named[part] for part in named if part in {one.part for one in swaps}}


def listed_tasks(work: Work, exam: Exam) -> dict[str, list[str]]:
    """The same as they were before anything was swapped, with those that the practical itself names."""
    fixed = {part.id: part.exercises for part in practical_of(work, exam).parts if part.exercises}
    named = {id: list(one.exercises) for id, one in fixed.items() if one.exercises}
    return named | {part: tasks for part, tasks in _named_or_drawn(work, exam).items() if tasks}


def _named_or_drawn(work: Work, exam: Exam) -> dict[str, list[str]]:
    drawn = {one.part: json.loads(one.tasks) for one in work.lists.of_exam(exam.id).values()}
    return json.loads(exam.tasks) | drawn


def sent_sheets(work: Work, exam_id: str) -> tuple[Sheet, ...]:
    """The newest sent sheet of each examiner."""
    return standing(tuple(read_sheet(one.content) for one in work.exams.sheets(exam_id)))


def visible_sheets(work: Work, exam_id: str, examiner_id: str) -> tuple[Sheet, ...]:
    """An examiner's own sent sheet, and the others' only once it and every first examiner's are sent."""
    sent = sent_sheets(work, exam_id)
    if may_see_all(work, exam_id, sent, examiner_id):
        return sent
    return tuple(one for one in sent if one.examiner == examiner_id)


def may_see_all(work: Work, exam_id: str, sent: tuple[Sheet, ...], viewer_id: str) -> bool:
    """Whether every first examiner has sent, and the viewer too if they examine here."""
    own = set(work.exams.seats(exam_id)) & {viewer_id}
    return {one.examiner for one in sent} >= first_examiners(work, exam_id) | own


def first_examiners(work: Work, exam_id: str) -> set[str]:
    """The examiners of an exam without those who mark as further ones."""
    return set(work.exams.seats(exam_id)) - work.exams.second_markers(exam_id)


def result_of(work: Work, exam: Exam) -> Result:
    """What the sheets sent so far add up to, with what stood where it is a further attempt."""
    error = error_in_use(work, exam)
    exact = None if error is None else Fraction(error)
    return result(edition_of_exam(work, exam), sent_sheets(work, exam.id), exact, again_of(work, exam))


def again_of(work: Work, exam: Exam) -> Again | None:
    """What a further attempt covers and what stood; None for a first one."""
    if not exam.resit_of:
        return None
    parts, earlier, one = tuple(json.loads(exam.parts)), [], exam
    while one.parts != "[]":
        one = work.exams.by_id(one.resit_of)
        earlier.append((tuple(json.loads(one.parts)), sent_sheets(work, one.id)))
    return Again(parts, still_counts(edition_of_exam(work, exam), parts, earlier) if parts else ())


def error_in_use(work: Work, exam: Exam) -> float | None:
    """The season's standard error in marks that the band is taken from, None where the rules' fixed one holds.

    A decided exam keeps the one it was decided by, whatever the season's later sheets say.
    """
    decisions = work.exams.decisions(exam.id)
    if decisions:
        return decisions[-1].season_error
    picture = work.seasons.picture(exam.practical_id)
    return None if picture is None else _error_of(picture.content)


@lru_cache(maxsize=16)
def _error_of(picture: str) -> float | None:
    return read_picture(picture)["spread"]["as_it_is"]["error"]["estimate"]


def ties_of(work: Work, candidate_id: str) -> tuple[Tie, ...]:
    """All that stands between people and a candidate: as stated, as hosts, and as examiners."""
    stated = [Tie(one.person_id, candidate_id, one.kind, one.last_day) for one in work.exams.ties(candidate_id)]
    own = work.enrolments.of_person(candidate_id)
    return (*stated, *_hosted(work, candidate_id, own), *_examined(work, candidate_id, own))


def bookings(work: Work) -> tuple[Booking, ...]:
    """Every exam of the school, in order of time."""
    return bookings_but(work, "")


def bookings_but(work: Work, exam_id: str) -> tuple[Booking, ...]:
    """The same without one exam."""
    seats, decisions = work.exams.all_seats(), work.exams.all_decisions()
    people = {one.id: one.person_id for one in work.enrolments.all()}
    return tuple(
        _booking(exam, practical_of(work, exam), people[exam.enrolment_id], seats.get(exam.id, []), decisions)
        for exam in work.exams.all()
        if exam.id != exam_id
    )


def _booking(exam: Exam, practical: Practical, candidate: str, seats: list[str], decisions: dict) -> Booking:
    decided, when = decisions.get(exam.id), (exam.day, exam.starts_minute, practical.minutes)
    after = (Outcome(decided.outcome), decided.again_from) if decided else (None, None)
    return Booking(candidate, practical.id, *when, exam.room, tuple(seats), *after)


def _hosted(work: Work, candidate_id: str, own: list[Enrolment]) -> list[Tie]:
    people = {host.id: host.person_id for host in work.hosts.all() if host.person_id}
    last: dict[str, date] = {}
    for enrolment in own if people else ():
        for session in work.ledger.of_enrolment(enrolment.id):
            person = people.get(session.host)
            if person and session.state != "withdrawn":
                last[person] = max(session.day, last.get(person, session.day))
    return [Tie(person, candidate_id, "hosted", day) for person, day in last.items()]


def _examined(work: Work, candidate_id: str, own: list[Enrolment]) -> list[Tie]:
    exams = [exam for enrolment in own for exam in work.exams.of_enrolment(enrolment.id)]
    return [Tie(person, candidate_id, "examined", exam.day) for exam in exams for person in work.exams.seats(exam.id)]
