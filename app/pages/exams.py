"""Exams for the director: the list, setting one, and one with its sheets, result and decision."""

import uuid

from fastapi.responses import Response

from app.queries import exams as query
from app.queries.day_plan import exam_days
from app.queries.enrolled import enrolled_now
from app.queries.exam_list import exam_list, most_examiners, practicals_on_offer
from app.queries.incidents import withdrawn_text
from app.storage.exams import Exam
from app.storage.work import Work
from app.use_cases.deciding_exams import decide_exam
from app.use_cases.setting_exams import STATED, seat_further_examiner, set_exam, state_tie
from app.web.door import Pages
from app.web.exam_form import DecisionForm, ExamForm, tie_request
from app.web.visit import Here, Visit
from app.wording.dates import day_text
from app.wording.exams import TIE_KINDS
from app.wording.practicals import OUTCOMES, VOID_CAUSES
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/exams", may="set exams")
def exams(visit: Here) -> Response:
    """What waits for the director first, then what is coming, then what is decided."""
    with visit.store.reading(visit.school_id) as work:
        lines = exam_list(work, visit.today, visit.language)
        days = [(one.isoformat(), day_text(one, visit.locale)) for one in exam_days(work, visit.today)]
    return visit.show("exams/exams.html", lines=lines, days=days)


@pages.get("/exams/new", may="set exams")
def new_exam(visit: Here) -> Response:
    """The form to set an exam; a trainee's page names the candidate in its link."""
    enrolment = visit.request.query_params.get("enrolment", "")
    return _new(visit, ExamForm(str(uuid.uuid4()), enrolment), [], 200)


@pages.post("/exams/new", may="set exams")
def set_new(visit: Here) -> Response:
    form = ExamForm.typed(visit.form)
    try:
        exam = set_exam(visit.store, visit.asker, form.request(visit.today))
    except RefusedError as refusal:
        return _new(visit, form, visit.faults(refusal.faults), 422)
    return visit.go(f"/exams/{exam.id}", visit.say(N_("The exam is set.")))


@pages.get("/exams/{exam_id}", may="set exams")
def one_exam(visit: Here, exam_id: str) -> Response:
    return _exam(visit, exam_id, [], 200)


@pages.post("/exams/{exam_id}/decision", may="decide exams")
def decide(visit: Here, exam_id: str) -> Response:
    """Keep a decision; the page as typed, with every reason, if it can't stand."""
    form = DecisionForm.typed(visit.form)
    try:
        kept = decide_exam(visit.store, visit.asker, form.request(exam_id))
    except RefusedError as refusal:
        return _exam(visit, exam_id, visit.faults(refusal.faults), 422, form)
    said = visit.say(N_("Decided: {outcome}."), outcome=visit.say(OUTCOMES[kept.outcome]))
    return visit.go(f"/exams/{exam_id}", said)


@pages.post("/exams/{exam_id}/further-examiner", may="set exams")
def seat_further(visit: Here, exam_id: str) -> Response:
    """Seat one further examiner for a second marking."""
    try:
        seat_further_examiner(visit.store, visit.asker, exam_id, visit.typed("examiner"), visit.typed("further-waiver"))
    except RefusedError as refusal:
        return _exam(visit, exam_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/exams/{exam_id}", visit.say(N_("A further examiner is seated.")))


@pages.post("/exams/{exam_id}/ties", may="set exams")
def tie(visit: Here, exam_id: str) -> Response:
    """Put on record that somebody taught the candidate or is related to them."""
    with visit.store.reading(visit.school_id) as work:
        candidate = work.enrolments.by_id(_found(work, exam_id).enrolment_id).person_id
    try:
        state_tie(visit.store, visit.asker, tie_request(visit.form, candidate))
    except RefusedError as refusal:
        return _exam(visit, exam_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/exams/{exam_id}", visit.say(N_("It is on record.")))


def _new(visit: Visit, form: ExamForm, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        choices, seats = _choices(visit, work), most_examiners(work)
    return visit.show("exams/new.html", status, form=form, faults=faults, choices=choices, seats=seats)


def _exam(visit: Visit, exam_id: str, faults: list, status: int, form: DecisionForm | None = None) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam = _found(work, exam_id)
        overview = query.exam_overview(work, exam, visit.person.id, visit.today, visit.school.time_zone, visit.language)
        choices = _choices(visit, work)
        withdrawn = withdrawn_text(work, exam.room, visit.language)
    known = len(overview.decisions)
    begun = _begun(overview, known)
    return visit.show(
        "exams/exam.html",
        status,
        overview=overview,
        withdrawn=withdrawn,
        faults=faults,
        form=form or begun,
        choices=choices,
        typed=visit.typed,
        tie_id=str(uuid.uuid4()),
    )


def _begun(overview: query.ExamOverview, known: int) -> DecisionForm:
    """The form of a decision as it begins: what was noted, else what the sheets recommend."""
    if overview.noted:
        noted = overview.noted
        return DecisionForm(str(noted.outcome), noted.reason, void_cause=noted.cause, known=known)
    outcome = str(overview.recommendation) if overview.can_pass else ""
    return DecisionForm(outcome, refer_parts=overview.refer_parts, known=known)


def _found(work: Work, exam_id: str) -> Exam:
    exam = work.exams.by_id(exam_id)
    if exam is None:
        raise NotFoundError
    return exam


def _choices(visit: Visit, work: Work) -> dict[str, list[tuple[str, str]]]:
    """What each list offers."""
    names, gone, nothing = work.people.names(), work.people.gone(), ("", visit.say(N_("choose")))
    trainees = sorted((names[one.person_id], one.id) for one in enrolled_now(work))
    examiners = [(one.id, one.name) for one in work.people.with_role("examiner") if one.left_at is None]
    return {
        "enrolment": [nothing, *((id, name) for name, id in trainees)],
        "practical": [nothing, *practicals_on_offer(work)],
        "examiner": [nothing, *examiners],
        "person": [nothing, *sorted((one for one in names.items() if one[0] not in gone), key=lambda one: one[1])],
        "kind": [(kind, visit.say(TIE_KINDS[kind])) for kind in STATED],
        "outcome": [(outcome, visit.say(words)) for outcome, words in OUTCOMES.items()],
        "void_cause": [nothing, *((cause, visit.say(words)) for cause, words in VOID_CAUSES.items())],
    }
