"""A day of exams: asked for, proposed, and set at once."""

import uuid

from fastapi.responses import Response

from app.queries.exam_days import day_choices, proposed
from app.queries.exam_facts import practical_edition
from app.queries.exam_list import practicals_on_offer
from app.use_cases.setting_days import plan_day, set_day
from app.web.day_form import DayForm, proposal_request
from app.web.door import Pages
from app.web.typed import typed_day
from app.web.visit import Here, ShownFault, Visit
from app.wording.dates import day_text
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

pages = Pages()


@pages.get("/exam-days/new", may="set exams")
def new_day(visit: Here) -> Response:
    """The form of a day; every examiner is chosen, and the first practical unless the link names one."""
    form = DayForm(visit.request.query_params.get("practical", ""))
    return _new(visit, form, [], 200, fresh=True)


@pages.post("/exam-days/new", may="set exams")
def propose(visit: Here) -> Response:
    """Who examines whom, when and where; nothing is set yet."""
    form = DayForm.typed(visit.form)
    if visit.typed("change"):
        return _new(visit, form, [], 200)
    try:
        request = form.request()
        with visit.store.reading(visit.school_id) as work:
            planned = plan_day(work, request, visit.school.time_zone)
            exams = proposed(work, planned.plan, planned.waived, visit.language)
            title = practical_edition(work, form.practical).title
    except RefusedError as refusal:
        return _new(visit, form, visit.faults(refusal.faults), 422)
    day = day_text(request.day, visit.language.locale)
    return visit.show(
        "exam_days/proposal.html",
        form=form, exams=[(str(uuid.uuid4()), one) for one in exams], linked=planned.plan.linked, title=title, day=day,
    )  # fmt: skip


@pages.post("/exam-days", may="set exams")
def set_all(visit: Here) -> Response:
    """Set the proposed exams, all or none."""
    try:
        kept = set_day(visit.store, visit.asker, proposal_request(visit.form))
    except RefusedError as refusal:
        faults = [_about(visit, fault) for fault in refusal.faults]
        return _new(visit, DayForm(visit.typed("practical"), visit.typed("day")), faults, 422, fresh=True)
    said = visit.language.ngettext("{number} exam is set.", "{number} exams are set.", len(kept))
    return visit.go(f"/exam-days/{visit.typed('day')}", said)


def _about(visit: Visit, fault: Fault) -> ShownFault:
    (shown,) = visit.faults([fault])
    return ShownFault("", f"{fault.source}: {shown.text}") if fault.source else shown


def _new(visit: Visit, form: DayForm, faults: list, status: int, fresh: bool = False) -> Response:
    with visit.store.reading(visit.school_id) as work:
        offered = practicals_on_offer(work)
        if not offered:
            raise NotFoundError(N_("No practical is published yet."))
        practical = form.practical if form.practical in dict(offered) else offered[0][0]
        day = typed_day(form.day, "day", "", []) or visit.today
        choices = day_choices(work, practical, day, visit.school.time_zone, visit.language)
    if fresh:
        form = form.begun(choices)
    return visit.show("exam_days/new.html", status, form=form, faults=faults, choices=choices, practical=practical)
