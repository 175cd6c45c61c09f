"""The trainee's hours: today and logging, the list with the standing, one session, corrections."""

import uuid
from dataclasses import replace
from functools import partial
from urllib.parse import quote
from zoneinfo import ZoneInfo

from fastapi.responses import JSONResponse, Response

from app.queries import hours as query
from app.storage.enrolments import Enrolment
from app.use_cases import hours as act
from app.use_cases.hours import LogHours
from app.use_cases.hours_at_once import Outcome, log_at_once
from app.web.door import Pages
from app.web.logging_aids import logging_aids
from app.web.own_enrolment import own_enrolment
from app.web.sent_sessions import answered, sent_forms
from app.web.session_form import SessionForm, form_choices, offered_hosts
from app.web.visit import Here, Visit
from app.wording.dates import moment_text
from app.wording.hours import hours
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()
LOGGED = {
    "waiting": N_("Logged: {time} that wait for the host's signature."),
    "attested": N_("Logged: {time} of your own practice, on your word."),
}
DAYS_SHOWN = 3
THERE = N_("The school has it: {time}.")


@pages.get("/today", may="log own hours")
def today(visit: Here, logged: str = "") -> Response:
    """Log a session, prefilled from the last; what is waiting; what is still to do."""
    return _today(visit, None, [], 200, logged)


@pages.post("/today", may="log own hours")
def log(visit: Here) -> Response:
    """Take the session; the same page as typed, with every reason, if it can't be taken."""
    form = SessionForm.typed(visit.form)
    try:
        session = _log(visit, own_enrolment(visit), form)
    except RefusedError as refusal:
        return _today(visit, form, visit.faults(refusal.faults), 422)
    return visit.go(f"/today?logged={quote(session.id)}", _said(visit, session))


@pages.post("/hours/sessions", may="log own hours")
def take(visit: Here) -> Response:
    """Take what a device kept and sends, many at once; each has its own answer, and none undoes another."""
    forms, enrolment = sent_forms(visit.typed("items")), own_enrolment(visit)
    requests, unread = [], {}
    for place, form in enumerate(forms):
        try:
            requests.append(LogHours(enrolment.id, form.session(), note=form.note, expected_version=form.version))
        except RefusedError as refusal:
            unread[place] = Outcome(form.id, faults=refusal.faults, error=refusal)
    taken = iter(log_at_once(visit.store, visit.asker, tuple(requests), visit.settings.host_link_days, _address(visit)))
    outcomes = [unread.get(place) or next(taken) for place in range(len(forms))]
    items = [answered(visit, place, one, partial(_said, visit)) for place, one in enumerate(outcomes)]
    return JSONResponse({"items": items})


@pages.get("/hours", may="see own standing")
def own_hours(visit: Here) -> Response:
    """Still to do first, then per rule, then every session with its why."""
    enrolment = own_enrolment(visit)
    with visit.store.reading(visit.school_id) as work:
        overview = query.hours_overview(work, enrolment, visit.person.name, visit.today, visit.language)
    made = moment_text(visit.now, visit.school.time_zone, visit.locale)
    return visit.show("hours/hours.html", overview=overview, own=True, made=made)


@pages.get("/hours/sessions/{session_id}", may="see own standing")
def one_session(visit: Here, session_id: str) -> Response:
    """A session with its versions, and the form to correct it."""
    return _session(visit, session_id, None, [], 200)


@pages.post("/hours/sessions/{session_id}", may="log own hours")
def correct(visit: Here, session_id: str) -> Response:
    """A correction is a new version that needs a new signature."""
    enrolment = own_enrolment(visit)
    _own(visit, enrolment, session_id)
    form = replace(SessionForm.typed(visit.form), id=session_id)
    try:
        _log(visit, enrolment, form)
    except RefusedError as refusal:
        return _session(visit, session_id, form, visit.faults(refusal.faults), 422)
    return visit.go(f"/hours/sessions/{session_id}", visit.say(N_("Corrected. It needs a new signature.")))


@pages.post("/hours/sessions/{session_id}/withdraw", may="log own hours")
def withdraw(visit: Here, session_id: str) -> Response:
    _own(visit, own_enrolment(visit), session_id)
    act.withdraw(visit.store, visit.asker, session_id)
    return visit.go("/hours", visit.say(N_("Withdrawn. It stays on record and counts nothing.")))


def _today(visit: Visit, form: SessionForm | None, faults: list, status: int, logged: str = "") -> Response:
    enrolment = own_enrolment(visit)
    with visit.store.reading(visit.school_id) as work:
        overview = query.hours_overview(work, enrolment, visit.person.name, visit.today, visit.language)
        sessions = work.ledger.of_enrolment(enrolment.id)
        own = work.ledger.enrolment_of(logged) == enrolment.id
        hosts = offered_hosts(work.hosts.all(), visit.today)
        choices = form_choices(overview.requirements, hosts, visit.language)
        shown = [one.id for day in overview.days[:DAYS_SHOWN] for one in day.sessions]
        activities = [value for value, _ in choices["activity"] if value]
        aids = logging_aids(work, enrolment, sessions, shown, activities, visit.today, visit.language)
    local = visit.now.astimezone(ZoneInfo(visit.school.time_zone))
    form = form or SessionForm.like_last(sessions, visit.today, local.hour * 60 + local.minute, str(uuid.uuid4()))
    return visit.show(
        "hours/today.html",
        status,
        overview=overview,
        days=overview.days[:DAYS_SHOWN],
        logged=logged if own else "",
        form=form,
        faults=faults,
        choices=choices,
        aids=aids,
        made=moment_text(visit.now, visit.school.time_zone, visit.locale),
    )


def _session(visit: Visit, session_id: str, form: SessionForm | None, faults: list, status: int) -> Response:
    enrolment = own_enrolment(visit)
    _own(visit, enrolment, session_id)
    with visit.store.reading(visit.school_id) as work:
        overview = query.session_overview(
            work, enrolment, session_id, visit.today, visit.school.time_zone, visit.language
        )
        hosts = offered_hosts(work.hosts.all(), visit.today, kept=overview.session.host)
    return visit.show(
        "hours/session.html",
        status,
        overview=overview,
        form=form or SessionForm.of(overview.session),
        faults=faults,
        choices=form_choices(overview.requirements, hosts, visit.language),
    )


def _log(visit: Visit, enrolment: Enrolment, form: SessionForm) -> act.Session:
    session = form.session()
    request = LogHours(enrolment.id, session, note=form.note, expected_version=form.version, sure=form.sure)
    return act.log_hours(visit.store, visit.asker, request, visit.settings.host_link_days, _address(visit))


def _address(visit: Visit) -> str:
    return str(visit.request.base_url).rstrip("/")


def _said(visit: Visit, session: act.Session) -> str:
    """What is said of a session that is taken; of one decided or corrected since, only that it is there."""
    return visit.say(LOGGED.get(session.state, THERE), time=hours(session.minutes, visit.language))


def _own(visit: Visit, enrolment: Enrolment, session_id: str) -> None:
    with visit.store.reading(visit.school_id) as work:
        if work.ledger.enrolment_of(session_id) != enrolment.id:
            raise NotFoundError
