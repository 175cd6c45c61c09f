"""Exams as calendar files (iCalendar, RFC 5545), times in UTC: the director's day, an examiner's and a candidate's own."""

from collections.abc import Iterable
from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

from fastapi.responses import Response

from app.files.log_calendar import CalendarEvent, log_calendar
from app.queries.day_plan import DayShown, client_text
from app.queries.exam_facts import practical_of
from app.storage.exams import Exam
from app.storage.work import Work
from app.web.visit import Visit
from curriculum.faults import N_

WITH = N_("With {names}.")


def day_calendar(visit: Visit, work: Work, shown: DayShown) -> Response:
    """Every exam of the day, with examiners and client."""
    events = []
    for one in shown.exams:
        told = [visit.say(WITH, names=one.examiners) if one.examiners else "", one.client]
        exam = work.exams.by_id(one.id)
        events.append(_event(visit, work, exam, f"{one.candidate}: {one.practical}", told))
    return _file(visit, events, visit.say(N_("Exams, {day}"), day=shown.title), f"exams-{shown.day.isoformat()}.ics")


def examiner_calendar(visit: Visit, work: Work) -> Response:
    """An examiner's own exams."""
    names, events = work.people.names(), []
    for exam in work.exams.of_examiner(visit.person.id):
        candidate = names[work.enrolments.by_id(exam.enrolment_id).person_id]
        others = [names[one] for one in work.exams.seats(exam.id) if one != visit.person.id]
        told = [
            visit.say(WITH, names=visit.language.listed(others)) if others else "",
            client_text(work, exam, visit.language),
        ]
        title = visit.say(
            N_("Examine {candidate}: {practical}"), candidate=candidate, practical=practical_of(work, exam).title
        )
        events.append(_event(visit, work, exam, title, told))
    return _file(visit, events, visit.say(N_("Exams at {school}"), school=visit.school.name), "my-exams.ics")


def candidate_calendar(visit: Visit, work: Work) -> Response:
    """A candidate's own exams; who examines is not in it, since a panel may change."""
    own = [exam for one in work.enrolments.of_person(visit.person.id) for exam in work.exams.of_enrolment(one.id)]
    events = [
        _event(visit, work, exam, visit.say(N_("Exam: {practical}"), practical=practical_of(work, exam).title), [])
        for exam in own
    ]
    return _file(visit, events, visit.say(N_("Exams at {school}"), school=visit.school.name), "my-practicals.ics")


def _event(visit: Visit, work: Work, exam: Exam, title: str, told: Iterable[str]) -> CalendarEvent:
    """A void exam is cancelled in the calendar."""
    midnight = datetime.combine(exam.day, time(), ZoneInfo(visit.school.time_zone))
    # Clock time at the school, also on a day on which the clocks change.
    first = midnight + timedelta(minutes=exam.starts_minute)
    last = first.astimezone(UTC) + timedelta(minutes=practical_of(work, exam).minutes)
    decisions = work.exams.decisions(exam.id)
    void = bool(decisions) and decisions[-1].outcome == "void"
    id = f"exam-{exam.id}@{visit.school.id}.throughline"
    return CalendarEvent(id, first, last, title, "\n".join(one for one in told if one), exam.room, void)


def _file(visit: Visit, events: list[CalendarEvent], name: str, file: str) -> Response:
    sent = {"content-disposition": f'attachment; filename="{file}"'}
    return Response(log_calendar(events, name, visit.now), media_type="text/calendar; charset=utf-8", headers=sent)
