"""Appeals and complaints about exams, for directors and for whoever is to decide one."""

from fastapi.responses import Response

from app.permissions import DIRECTOR
from app.queries import appeals as query
from app.queries.exams import exam_overview
from app.queries.recordings import recording_of
from app.storage.appeals import Appeal
from app.storage.work import Work
from app.use_cases.appealing import DecideAppeal, assign, decide_appeal
from app.use_cases.recordings import open_recording
from app.web.door import Pages
from app.web.typed import whole_number
from app.web.visit import Here, Visit
from app.wording.appeals import VERDICTS
from app.wording.practicals import OUTCOMES, VOID_CAUSES
from assessments.practicals.appeal import assigned_to
from assessments.practicals.deciding import Outcome
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/appeals", may="answer appeals")
def appeals(visit: Here) -> Response:
    """All of them for a director, for an examiner those to decide."""
    seen = (visit.person.id, DIRECTOR in visit.roles, visit.today, visit.school.time_zone, visit.language)
    with visit.store.reading(visit.school_id) as work:
        lines = query.appeals_for(work, *seen)
    return visit.show("appeals/appeals.html", lines=lines)


@pages.get("/appeals/{appeal_id}", may="answer appeals")
def one(visit: Here, appeal_id: str) -> Response:
    return _show(visit, appeal_id, [], 200)


@pages.post("/appeals/{appeal_id}/assigned", may="set exams")
def give(visit: Here, appeal_id: str) -> Response:
    """Give it to somebody who had no part in it."""
    try:
        known = whole_number(visit.typed("known"))
        assign(visit.store, visit.asker, appeal_id, visit.typed("person"), known, visit.settings.public_address)
    except RefusedError as refusal:
        return _show(visit, appeal_id, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go(f"/appeals/{appeal_id}", visit.say(N_("Assigned, and told by mail.")))


@pages.post("/appeals/{appeal_id}/decided", may="answer appeals")
def decide(visit: Here, appeal_id: str) -> Response:
    """Decide it, with the reason; that ends it."""
    outcome, cause = visit.typed("outcome"), visit.typed("void_cause")
    parts = tuple(visit.form.get("refer_parts", ())) if outcome == Outcome.REFER else ()
    known = whole_number(visit.typed("known"))
    void = cause if outcome == Outcome.VOID and cause in VOID_CAUSES else None
    request = DecideAppeal(appeal_id, outcome, visit.typed("reason"), known, parts, void)
    try:
        decide_appeal(visit.store, visit.asker, request, visit.settings.public_address)
    except RefusedError as refusal:
        return _show(visit, appeal_id, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go(f"/appeals/{appeal_id}", visit.say(N_("Decided. The candidate is told.")))


@pages.post("/appeals/{appeal_id}/recording", may="answer appeals")
def open_it(visit: Here, appeal_id: str) -> Response:
    """Where the exam's recording is, for whoever decides; shown once, and the opening is on record."""
    with visit.store.reading(visit.school_id) as work:
        exam_id = _seen(visit, work, appeal_id).exam_id
    return _show(visit, appeal_id, [], 200, open_recording(visit.store, visit.asker, exam_id, False))


def _seen(visit: Visit, work: Work, appeal_id: str) -> Appeal:
    kept = work.appeals.by_id(appeal_id)
    steps = query.steps_of(work, appeal_id) if kept else []
    if kept is None or not (DIRECTOR in visit.roles or assigned_to([one.made for one in steps]) == visit.person.id):
        raise NotFoundError
    return kept


def _show(visit: Visit, appeal_id: str, faults: list, status: int, link: str = "") -> Response:
    language, zone, nothing = visit.language, visit.school.time_zone, ("", visit.say(N_("choose")))
    with visit.store.reading(visit.school_id) as work:
        kept = _seen(visit, work, appeal_id)
        exam = work.exams.by_id(kept.exam_id)
        filed = query.appeals_of_exam(work, exam.id, visit.today, zone, language)
        overview = exam_overview(work, exam, visit.person.id, visit.today, zone, language)
        recorded = bool(recording_of(work, exam.id).link)
        free, rules = query.may_decide(work, exam, visit.today), query.rules_text(work, exam, zone, language)
    outcomes = VERDICTS if kept.kind == "complaint" else OUTCOMES
    return visit.show(
        "appeals/appeal.html", status, one=next(each for each in filed if each.id == appeal_id), overview=overview,
        recorded=recorded, link=link, rules=rules, directs=DIRECTOR in visit.roles, people=[nothing, *free], faults=faults, typed=visit.typed,
        outcomes=[(code, visit.say(text)) for code, text in outcomes.items()],
        causes=[nothing, *((code, visit.say(text)) for code, text in VOID_CAUSES.items())],
        chosen=visit.form.get("refer_parts", ()),
    )  # fmt: skip
