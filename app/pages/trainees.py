"""What the director puts on a trainee's record: hours the school keeps, documents, modules, extensions and leave."""

import uuid
from collections.abc import Callable

from fastapi.responses import Response

from app.queries.kept_hours import kept_overview
from app.queries.standing import requirements_of
from app.queries.trainee_record import asked_for, named, trainee_record
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.use_cases import trainees as act
from app.use_cases.asker import Asker
from app.use_cases.keeping_hours import keep_hours, withdraw_kept
from app.web.door import Pages
from app.web.kept_hours_form import KeptHoursForm, asked_fields, kept_choices
from app.web.typed import typed_day
from app.web.visit import Here, Visit
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

pages = Pages()


@pages.get("/trainees/{enrolment_id}/hours/new", may="accept hours")
def new_hours(visit: Here, enrolment_id: str) -> Response:
    """The form for hours the school takes on other evidence than a host's signature."""
    return _new(visit, enrolment_id, KeptHoursForm(str(uuid.uuid4())), [], 200)


@pages.post("/trainees/{enrolment_id}/hours/new", may="accept hours")
def take_hours(visit: Here, enrolment_id: str) -> Response:
    form = KeptHoursForm.typed(visit.form)
    try:
        _keep(visit, enrolment_id, form)
    except RefusedError as refusal:
        return _new(visit, enrolment_id, form, list(refusal.faults), 422)
    return visit.go(f"/trainees/{enrolment_id}", visit.say(N_("The hours are on record.")))


@pages.get("/trainees/{enrolment_id}/hours/{session_id}", may="accept hours")
def kept_hours(visit: Here, enrolment_id: str, session_id: str) -> Response:
    """Hours the school keeps: by whom, on what evidence, what happened to them; to correct or withdraw."""
    return _kept_hours(visit, enrolment_id, session_id, None, [], 200)


@pages.post("/trainees/{enrolment_id}/hours/{session_id}", may="accept hours")
def correct_hours(visit: Here, enrolment_id: str, session_id: str) -> Response:
    form = KeptHoursForm.typed({**visit.form, "id": [session_id]})
    try:
        _keep(visit, enrolment_id, form)
    except RefusedError as refusal:
        return _kept_hours(visit, enrolment_id, session_id, form, list(refusal.faults), 422)
    return visit.go(
        f"/trainees/{enrolment_id}/hours/{session_id}", visit.say(N_("Corrected. The old version stays on record."))
    )


@pages.post("/trainees/{enrolment_id}/hours/{session_id}/withdraw", may="accept hours")
def withdraw_hours(visit: Here, enrolment_id: str, session_id: str) -> Response:
    try:
        withdraw_kept(visit.store, visit.asker, enrolment_id, session_id, visit.typed("withdraw-reason"))
    except RefusedError as refusal:
        return _kept_hours(visit, enrolment_id, session_id, None, list(refusal.faults), 422)
    return visit.go(f"/trainees/{enrolment_id}", visit.say(N_("Withdrawn. It stays on record and counts nothing.")))


@pages.get("/trainees/{enrolment_id}/record", may="record documents")
def record(visit: Here, enrolment_id: str) -> Response:
    """What the school has seen and granted, and who did what."""
    return _record(visit, enrolment_id, [], 200)


@pages.post("/trainees/{enrolment_id}/record/documents", may="record documents")
def record_document(visit: Here, enrolment_id: str) -> Response:
    def keep(asker: Asker) -> None:
        days, faults = _days(visit, "from", "to")
        request = act.ShowDocument(_document_kind(visit, enrolment_id, faults), *days)
        act.record_document(visit.store, asker, enrolment_id, request, faults)

    return _kept(visit, enrolment_id, keep)


@pages.post("/trainees/{enrolment_id}/record/documents/withdraw", may="record documents")
def withdraw_document(visit: Here, enrolment_id: str) -> Response:
    def keep(asker: Asker) -> None:
        act.withdraw_document(visit.store, asker, enrolment_id, visit.typed("document"), visit.typed("document-reason"))

    return _kept(visit, enrolment_id, keep)


@pages.post("/trainees/{enrolment_id}/record/modules", may="record documents")
def record_module(visit: Here, enrolment_id: str) -> Response:
    def keep(asker: Asker) -> None:
        days, faults = _days(visit, "done")
        act.record_module(visit.store, asker, enrolment_id, visit.typed("module").strip(), *days, faults)

    return _kept(visit, enrolment_id, keep)


@pages.post("/trainees/{enrolment_id}/record/modules/withdraw", may="record documents")
def take_module_back(visit: Here, enrolment_id: str) -> Response:
    def keep(asker: Asker) -> None:
        act.take_module_back(visit.store, asker, enrolment_id, visit.typed("gone"), visit.typed("module-reason"))

    return _kept(visit, enrolment_id, keep)


@pages.post("/trainees/{enrolment_id}/record/time", may="grant time")
def grant_time(visit: Here, enrolment_id: str) -> Response:
    def keep(asker: Asker) -> None:
        days, faults = _days(visit, "first", "last")
        request = act.GrantTime(visit.typed("granted"), *days, visit.typed("why"))
        act.grant_time(visit.store, asker, enrolment_id, request, faults)

    return _kept(visit, enrolment_id, keep)


def _keep(visit: Visit, enrolment_id: str, form: KeptHoursForm) -> None:
    with visit.store.reading(visit.school_id) as work:
        requirements = requirements_of(work.editions.by_id(_enrolment(work, enrolment_id).requirements_id))
    keep_hours(visit.store, visit.asker, form.request(enrolment_id, requirements))


def _new(visit: Visit, enrolment_id: str, form: KeptHoursForm, faults: list[Fault], status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        enrolment = _enrolment(work, enrolment_id)
        name = work.people.names()[enrolment.person_id]
        values = _form_values(visit, work, enrolment, form, faults)
    return visit.show("trainees/new_hours.html", status, name=name, enrolment=enrolment, **values)


def _kept_hours(  # noqa: PLR0913 - the page, and the form as it was typed
    visit: Visit, enrolment_id: str, session_id: str, form: KeptHoursForm | None, faults: list[Fault], status: int
) -> Response:
    with visit.store.reading(visit.school_id) as work:
        enrolment = _enrolment(work, enrolment_id)
        overview = kept_overview(work, enrolment, session_id, visit.today, visit.school.time_zone, visit.language)
        form = form or KeptHoursForm.of(overview.session, overview.evidence)
        values = _form_values(visit, work, enrolment, form, faults)
    here = f"/trainees/{enrolment_id}/hours/{session_id}"
    reason = visit.typed("withdraw-reason")
    return visit.show("trainees/kept_hours.html", status, overview=overview, here=here, reason=reason, **values)


def _form_values(
    visit: Visit, work: Work, enrolment: Enrolment, form: KeptHoursForm, faults: list[Fault]
) -> dict[str, object]:
    requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
    return {
        "form": form,
        "in_window": requirements.window.months is not None,
        "faults": visit.faults(tuple(faults)),
        "fields": asked_fields(requirements, form, visit.language),
        "choices": kept_choices(requirements, work.hosts.all(), visit.language),
    }


def _enrolment(work: Work, enrolment_id: str) -> Enrolment:
    enrolment = work.enrolments.by_id(enrolment_id)
    if enrolment is None:
        raise NotFoundError
    return enrolment


def _kept(visit: Visit, enrolment_id: str, keep: Callable[[Asker], None]) -> Response:
    try:
        keep(visit.asker)
    except RefusedError as refusal:
        return _record(visit, enrolment_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/trainees/{enrolment_id}/record", visit.say(N_("It is on record.")))


def _days(visit: Visit, *names: str) -> tuple[list, list[Fault]]:
    """Days as typed, None where nothing was, and a fault for what is no day."""
    faults: list[Fault] = []
    typed = [(name, visit.typed(name).strip()) for name in names]
    return [typed_day(text, name, N_("choose the day"), faults) if text else None for name, text in typed], faults


def _document_kind(visit: Visit, enrolment_id: str, faults: list[Fault]) -> str:
    """A kind from the list, or a free name; a name that the list has is the one of the list."""
    listed, other = visit.typed("kind").strip(), visit.typed("other").strip()
    if listed and other:
        faults.append(Fault("two-kinds", N_("choose one from the list or name another, not both"), field="other"))
    if listed or not other:
        return listed
    with visit.store.reading(visit.school_id) as work:
        return named(asked_for(work, _enrolment(work, enrolment_id), "document"), other)


def _record(visit: Visit, enrolment_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        shown = trainee_record(work, _enrolment(work, enrolment_id), visit.school.time_zone, visit.language)
    here = f"/trainees/{enrolment_id}/record"
    return visit.show("trainees/record.html", status, record=shown, here=here, faults=faults, typed=visit.typed)
