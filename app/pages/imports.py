"""Hours from a file: sent, its columns named, looked at, put on record all at once; and taken back all at once."""

import importlib
import secrets

from fastapi.responses import Response

from app.queries.imported import import_lines
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.use_cases.importing_hours import ImportHours, import_faults, import_hours, undo_import
from app.web.door import Pages
from app.web.import_form import FIELDS, ImportForm
from app.web.visit import Here, ShownFault, Visit
from app.wording.dates import day_text
from app.wording.faults import fault_text
from app.wording.hours import hours
from app.wording.sessions import parts_text
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

pages = Pages()
SHOWN_ROWS, SHOWN_FAULTS = 12, 200
IN_ROW = N_("Row {row}, {field}: {what}")
IN_ROW_ONLY = N_("Row {row}: {what}")
# Fields of a session that a table has under another name.
OTHER_NAMES = {"minutes-0": "minutes", "activity-0": "activity", "first": "day"}


@pages.get("/trainees/{enrolment_id}/import", may="accept hours")
def begin(visit: Here, enrolment_id: str) -> Response:
    """Where a file is sent, and what was taken from files before."""
    return _begin(visit, enrolment_id, (), 200)


@pages.post("/trainees/{enrolment_id}/import", may="accept hours")
def look(visit: Here, enrolment_id: str) -> Response:
    """The file read once: which column is what, as far as their names say."""
    name, content = visit.sent_file("file")
    try:
        table = importlib.import_module("app.files.table").read_table(content)
    except RefusedError as refusal:
        return _begin(visit, enrolment_id, refusal.faults, 422)
    return _look(visit, enrolment_id, ImportForm.guessed(secrets.token_hex(8), name, table), 200)


@pages.post("/trainees/{enrolment_id}/import/rows", may="accept hours")
def keep(visit: Here, enrolment_id: str) -> Response:
    """Look again with other columns, or put every row on record."""
    try:
        form = ImportForm.typed(visit.form)
    except RefusedError as refusal:
        return _begin(visit, enrolment_id, refusal.faults, 422)
    if visit.typed("act") != "keep":
        return _look(visit, enrolment_id, form, 200)
    try:
        kept = import_hours(visit.store, visit.asker, _request(visit, enrolment_id, form))
    except RefusedError:
        return _look(visit, enrolment_id, form, 422)
    said = visit.language.ngettext("{number} session is on record.", "{number} sessions are on record.", kept)
    return visit.go(f"/trainees/{enrolment_id}/import", said)


@pages.post("/trainees/{enrolment_id}/import/{batch_id}/undo", may="accept hours")
def undo(visit: Here, enrolment_id: str, batch_id: str) -> Response:
    """Take everything of one file back; it stays on record as withdrawn."""
    try:
        gone = undo_import(visit.store, visit.asker, enrolment_id, batch_id, visit.typed("undo-reason"))
    except RefusedError as refusal:
        return _begin(visit, enrolment_id, refusal.faults, 422)
    said = visit.language.ngettext(
        "{number} session withdrawn. It stays on record.", "{number} sessions withdrawn. They stay on record.", gone
    )
    return visit.go(f"/trainees/{enrolment_id}/import", said)


def _begin(visit: Visit, enrolment_id: str, faults: tuple[Fault, ...], status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        enrolment = _enrolment(work, enrolment_id)
        name = work.people.names()[enrolment.person_id]
        lines = import_lines(work, enrolment_id, visit.school.time_zone, visit.language)
    values = {"name": name, "lines": lines, "faults": visit.faults(faults), "here": f"/trainees/{enrolment_id}/import"}
    return visit.show("imports/begin.html", status, back=f"/trainees/{enrolment_id}", **values)


def _request(visit: Visit, enrolment_id: str, form: ImportForm) -> ImportHours:
    with visit.store.reading(visit.school_id) as work:
        _enrolment(work, enrolment_id)
        return form.request(enrolment_id, work.hosts.all(), visit.language)


def _look(visit: Visit, enrolment_id: str, form: ImportForm, status: int) -> Response:
    """The columns, the first rows as they were read, and every fault there is by now."""
    rows, faults = [], []
    try:
        request = _request(visit, enrolment_id, form)
    except RefusedError as refusal:
        faults = list(refusal.faults)
    else:
        rows = [_row(visit, row, one) for row, one in request.sessions[:SHOWN_ROWS]]
        with visit.store.reading(visit.school_id) as work:
            faults = import_faults(work, visit.asker, request)
        if status == 200 and not form.evidence:
            faults = [one for one in faults if one.field != "evidence"]
    with visit.store.reading(visit.school_id) as work:
        name = work.people.names()[_enrolment(work, enrolment_id).person_id]
    return visit.show(
        "imports/look.html",
        status,
        form=form,
        name=name,
        rows=rows,
        faults=[_shown(visit, one) for one in faults[:SHOWN_FAULTS]],
        further=max(0, len(faults) - SHOWN_FAULTS),
        fields=FIELDS,
        here=f"/trainees/{enrolment_id}/import",
    )


def _shown(visit: Visit, fault: Fault) -> ShownFault:
    what = fault_text(fault, visit.language)
    if fault.line is None:
        return ShownFault(fault.field, what)
    field = OTHER_NAMES.get(fault.field, fault.field.removeprefix("field-"))
    if field not in FIELDS:
        return ShownFault("", visit.say(IN_ROW_ONLY, row=fault.line, what=what))
    label = visit.say(FIELDS[field][0])
    return ShownFault(f"column-{field}", visit.say(IN_ROW, row=fault.line, field=label, what=what))


def _row(visit: Visit, row: int, session) -> list[str]:  # noqa: ANN001 - a Session
    language = visit.language
    day = day_text(session.day, language.locale)
    return [str(row), day, hours(session.minutes, language), parts_text(session.parts, language), session.site]


def _enrolment(work: Work, enrolment_id: str) -> Enrolment:
    enrolment = work.enrolments.by_id(enrolment_id)
    if enrolment is None:
        raise NotFoundError
    return enrolment
