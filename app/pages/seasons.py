"""Seasons: what the director reads of examiners, pass mark and scores, and what an examiner reads of themself."""

from fastapi.responses import Response

from app.queries.own_scoring import own_scoring
from app.queries.season_audit import season_audit
from app.queries.seasons import season_list, season_overview
from app.use_cases.seasons import JOB
from app.web.door import Pages
from app.web.season_form import PlanForm
from app.web.visit import Here, Visit
from curriculum.faults import RefusedError

pages = Pages()


@pages.get("/seasons", may="read statistics")
def seasons(visit: Here) -> Response:
    """Every practical's edition that has exams."""
    with visit.store.reading(visit.school_id) as work:
        lines = season_list(work)
    _bring_up_to_date(visit, [line.id for line in lines if line.stale])
    return visit.show("seasons/seasons.html", lines=lines)


@pages.get("/seasons/{practical_id}", may="read statistics")
def season(visit: Here, practical_id: str) -> Response:
    """One season, and what another plan would buy; what is typed of a plan stands in the address."""
    form, faults, plan = PlanForm.typed(visit.request.query_params), [], None
    try:
        plan = form.request()
    except RefusedError as refusal:
        faults = visit.faults(refusal.faults)
    with visit.store.reading(visit.school_id) as work:
        overview = season_overview(work, practical_id, plan, visit.school.time_zone, visit.language)
        audit = season_audit(work, practical_id, visit.language) if overview.severities else ""
    _bring_up_to_date(visit, [practical_id] if overview.stale else [])
    return visit.show(
        "seasons/season.html", 422 if faults else 200, overview=overview, audit=audit, typed=form, faults=faults
    )


@pages.get("/my-scoring", may="read own statistics")
def own(visit: Here) -> Response:
    """The examiner's own scoring against the panel."""
    with visit.store.reading(visit.school_id) as work:
        found = own_scoring(work, visit.person.id, visit.language)
    _bring_up_to_date(visit, [one.practical_id for one in found if one.stale])
    return visit.show("seasons/own.html", seasons=found)


def _bring_up_to_date(visit: Visit, practical_ids: list[str]) -> None:
    for practical_id in practical_ids:
        visit.ask(JOB, practical_id)
