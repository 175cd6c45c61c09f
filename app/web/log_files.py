"""The hour log as a file, of the kind its name says. Workbooks and typesetting are loaded when one is asked for."""

import importlib

from fastapi.responses import Response

from app.files.log_calendar import CalendarEvent, log_calendar
from app.files.receipts import write_root
from app.queries.log_rows import LoggedSession, log_table, logged_sessions
from app.queries.proof import current_root
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.web.visit import Visit
from app.wording.sessions import STATES, parts_text
from curriculum.faults import N_, NotFoundError

# Name of the file, what it is called, what it is for.
FILES = (
    ("log.pdf", N_("To print or hand in (PDF)"), N_("Every session with its signature, and how to check it.")),
    ("log.xlsx", N_("Workbook (XLSX)"), N_("For a spreadsheet: days are days, minutes are numbers.")),
    ("log.csv", N_("Plain table (CSV)"), N_("For other programs; throughline hours assess reads it too.")),
    ("log.ics", N_("Calendar (iCalendar)"), N_("Every session on its day, for any calendar.")),
)
COHORT_FILES = FILES[1:3]
TYPES = {
    "pdf": "application/pdf",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "csv": "text/csv; charset=utf-8",
    "ics": "text/calendar; charset=utf-8",
}


def taken_away(
    visit: Visit, work: Work, enrolments: list[Enrolment], name: str, offered: tuple[tuple[str, str, str], ...]
) -> Response:
    """The log of these enrolments as the file of that name, if it is one of those offered."""
    if name not in (known for known, _, _ in offered):
        raise NotFoundError
    kind = name.rpartition(".")[2]
    sessions = logged_sessions(work, enrolments, visit.school.time_zone)
    body = MAKERS[kind](visit, work, enrolments, sessions)
    headers = {"content-disposition": f'attachment; filename="{visit.school.slug}-{name}"'}
    return Response(body, media_type=TYPES[kind], headers=headers)


def _csv(visit: Visit, work: Work, enrolments: list[Enrolment], sessions: list[LoggedSession]) -> bytes:
    return importlib.import_module("app.files.log_table").log_csv(*log_table(sessions))


def _workbook(visit: Visit, work: Work, enrolments: list[Enrolment], sessions: list[LoggedSession]) -> bytes:
    title = visit.say(N_("Hours"))
    return importlib.import_module("app.files.log_table").log_workbook(*log_table(sessions), title)


def _calendar(visit: Visit, work: Work, enrolments: list[Enrolment], sessions: list[LoggedSession]) -> bytes:
    name = visit.say(N_("Hours at {school}"), school=visit.school.name)
    return log_calendar([_event(visit, one) for one in sessions], name, visit.now)


def _event(visit: Visit, one: LoggedSession) -> CalendarEvent:
    session = one.session
    state = visit.say(STATES[session.state][0])
    return CalendarEvent(
        f"{session.id}@{visit.school.id}.throughline",
        one.begins or session.first or session.day,
        one.ends or session.day,
        parts_text(session.parts, visit.language),
        "\n".join(text for text in (one.host, state) if text),
        session.site,
        session.state == "withdrawn",
    )


def _pdf(visit: Visit, work: Work, enrolments: list[Enrolment], sessions: list[LoggedSession]) -> bytes:
    printing = importlib.import_module("app.files.log_pdf")
    (enrolment,) = enrolments
    programme = work.editions.by_id(enrolment.requirements_id)
    head = printing.LogHead(
        work.people.names()[enrolment.person_id],
        visit.school.name,
        f"{programme.name} {programme.number}",
        write_root(current_root(work)),
    )
    return printing.log_pdf(sessions, head, visit.now, visit.school.time_zone, visit.language)


MAKERS = {"csv": _csv, "xlsx": _workbook, "ics": _calendar, "pdf": _pdf}
