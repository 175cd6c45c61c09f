"""Session plans: put exercises in a row, see time, changes, order and cautions at once, and rehearse."""

import json

from fastapi.responses import Response

from app.files.plans import plan_from, plan_yaml
from app.queries import plans as query
from app.queries.repertoire import notices_about
from app.storage.plans import KeptPlan
from app.storage.work import Work
from app.use_cases import plans as act
from app.web.door import Pages
from app.web.own_edition import own_edition
from app.web.plan_form import PlanForm
from app.web.visit import Here, Visit
from curriculum.faults import N_, RefusedError
from curriculum.repertoire.edition import Edition
from curriculum.sessions.plan import Plan

pages = Pages()
# What a first lesson on the reformer often takes: common practice.
LESSON = PlanForm(minutes="55", factor="2.25", apparatus=("mat", "reformer"))


@pages.get("/plans", may="plan sessions")
def plans(visit: Here) -> Response:
    """One's own plans, and a new one."""
    return _plans(visit, LESSON, [], 200)


@pages.post("/plans", may="plan sessions")
def begin(visit: Here) -> Response:
    """A new plan: empty, or the best there is for the settings."""
    form, edition = PlanForm.typed(visit.form), own_edition(visit)
    try:
        kept = act.begin_plan(visit.store, visit.asker, form.plan(edition))
    except RefusedError as refusal:
        return _plans(visit, form, visit.faults(refusal.faults), 422)
    return visit.go(f"/plans/{kept.id}")


@pages.get("/plans/{plan_id}", may="plan sessions")
def plan(visit: Here, plan_id: str) -> Response:
    return _plan(visit, plan_id, None, [], 200)


@pages.post("/plans/{plan_id}", may="plan sessions")
def keep(visit: Here, plan_id: str) -> Response:
    """Keep the plan as the pressed button leaves it."""
    form, edition = PlanForm.typed(visit.form), own_edition(visit)
    if form.do == "back":
        act.take_back(visit.store, visit.asker, plan_id, form.version)
        return visit.go(f"/plans/{plan_id}", visit.say(N_("The last change is taken back.")))
    if form.do == "remove":
        act.throw_plan_away(visit.store, visit.asker, plan_id, form.version)
        return visit.go("/plans", visit.say(N_("The plan is thrown away.")))
    try:
        act.keep_plan(visit.store, visit.asker, plan_id, form.plan(edition), form.version)
    except RefusedError as refusal:
        return _plan(visit, plan_id, form, visit.faults(refusal.faults), 422)
    return visit.go(f"/plans/{plan_id}{_place(form)}")


@pages.get("/plans/{plan_id}/rehearsal", may="plan sessions")
def rehearse(visit: Here, plan_id: str) -> Response:
    """One exercise at a time, with its beat and the way into the next."""
    edition, kept = own_edition(visit), _own(visit, plan_id)
    found, _ = plan_from(kept.document, edition)
    steps = query.rehearsal(found, edition, visit.language)
    bouts = [[json.dumps(one.bouts) for one in step.positions] for step in steps]
    return visit.show("plans/rehearsal.html", plan=found, plan_id=plan_id, steps=steps, bouts=bouts, edition=edition)


@pages.get("/plans/{plan_id}/plan.yaml", may="plan sessions")
def take_away(visit: Here, plan_id: str) -> Response:
    """The plan as a file that the command line reads."""
    found, _ = plan_from(_own(visit, plan_id).document, own_edition(visit))
    headers = {"content-disposition": 'attachment; filename="plan.yaml"'}
    return Response(plan_yaml(found).encode(), media_type="application/yaml", headers=headers)


def _plans(visit: Visit, form: PlanForm, faults: list, status: int) -> Response:
    edition = own_edition(visit)
    with visit.store.reading(visit.school_id) as work:
        lines = query.plan_lines(work, visit.person.id, edition, visit.language)
    return visit.show(
        "plans/plans.html", status, lines=lines, form=form, faults=faults, choices=_choices(visit, edition)
    )


def _plan(visit: Visit, plan_id: str, form: PlanForm | None, faults: list, status: int) -> Response:
    edition, kept = own_edition(visit), _own(visit, plan_id)
    found, _ = plan_from(kept.document, edition)
    with visit.store.reading(visit.school_id) as work:
        notices = _notices(work, found, edition)
    overview = query.plan_overview(kept, edition, notices, visit.language)
    return visit.show(
        "plans/plan.html",
        status,
        plan_id=plan_id,
        overview=overview,
        form=form or PlanForm.of(found, edition, kept.version),
        version=kept.version,
        faults=faults,
        choices=_choices(visit, edition),
        edition=edition,
    )


def _notices(work: Work, plan: Plan, edition: Edition) -> tuple[str, ...]:
    own = [one for one in edition.exercises if one.id in plan.exercises]
    return notices_about(work, *(one.id for one in own), *{one.apparatus for one in own})


def _choices(visit: Visit, edition: Edition) -> dict[str, list]:
    nothing = ("", visit.say(N_("choose")))
    exercises = [
        (apparatus.name, [(one.id, one.name) for one in edition.on(apparatus.id)])
        for apparatus in edition.apparatus
        if edition.on(apparatus.id)
    ]
    return {
        "level": [nothing, *((one.id, one.name) for one in edition.levels)],
        "client": [(one.code, one.name) for one in edition.cautions],
        "apparatus": [(one.id, one.name) for one in edition.apparatus if edition.on(one.id)],
        "exercises": exercises,
        "foot_bar": [
            ("", visit.say(N_("not known"))),
            ("foot-lowered", visit.say(N_("a foot can lower it"))),
            ("locks", visit.say(N_("it locks"))),
        ],
    }


def _place(form: PlanForm) -> str:
    """Back to the row that was moved, so that the next press needs no scrolling."""
    what, _, place = form.do.partition("-")
    if not place.isdecimal() or what not in ("up", "down", "out"):
        return "#f-add" if form.do == "add" else ""
    at = int(place) + {"up": -1, "down": 1, "out": 0}[what]
    return f"#row-{min(max(at, 0), max(len(form.exercises) - 1, 0))}"


def _own(visit: Visit, plan_id: str) -> KeptPlan:
    with visit.store.reading(visit.school_id) as work:
        return act.own_plan(work, visit.person.id, plan_id)
