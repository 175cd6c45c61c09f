"""A candidate appeals against the decision of an own exam, or complains about it; reads how it stands; withdraws it."""

import uuid

from fastapi.responses import Response

from app.queries.appeals import appeals_of_exam, can_be_filed, decision_in_force, rules_text
from app.queries.exams import exam_head
from app.storage.exams import Exam
from app.storage.work import Work
from app.use_cases.appealing import file_appeal, withdraw
from app.web.door import Pages
from app.web.typed import whole_number
from app.web.visit import Here, Visit
from app.wording.appeals import GROUNDS, KINDS
from assessments.practicals.appeal import Filing
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/my-practicals/{exam_id}/appeal", may="appeal")
def own(visit: Here, exam_id: str) -> Response:
    return _show(visit, exam_id, [], 200)


@pages.post("/my-practicals/{exam_id}/appeal", may="appeal")
def file(visit: Here, exam_id: str) -> Response:
    """File it; the form as typed with every reason if it can't be."""
    filing = Filing(visit.typed("kind"), tuple(visit.form.get("grounds", ())), visit.typed("words"))
    try:
        file_appeal(visit.store, visit.asker, exam_id, visit.typed("id"), filing, visit.settings.public_address)
    except RefusedError as refusal:
        return _show(visit, exam_id, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    return visit.go(visit.path, visit.say(N_("The school has it. Only directors and whoever decides it can read it.")))


@pages.post("/my-practicals/{exam_id}/appeal/withdrawn", may="appeal")
def take_back(visit: Here, exam_id: str) -> Response:
    withdraw(visit.store, visit.asker, visit.typed("appeal"), whole_number(visit.typed("known")))
    return visit.go(f"/my-practicals/{exam_id}/appeal", visit.say(N_("Withdrawn.")))


def _own(visit: Visit, work: Work, exam_id: str) -> Exam:
    exam = work.exams.by_id(exam_id)
    if exam is None or work.enrolments.by_id(exam.enrolment_id).person_id != visit.person.id:
        raise NotFoundError
    return exam


def _show(visit: Visit, exam_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam, zone = _own(visit, work, exam_id), visit.school.time_zone
        filed = appeals_of_exam(work, exam_id, visit.today, zone, visit.language)
        head, rules = exam_head(work, exam, visit.language), rules_text(work, exam, zone, visit.language)
        decided, in_time = decision_in_force(work, exam) is not None, can_be_filed(work, exam, visit.today, zone)
    return visit.show(
        "my_appeals/my_appeals.html", status, exam_id=exam_id, head=head, rules=rules, filed=filed, faults=faults, in_time=in_time or bool(faults),
        kinds=[(kind, visit.say(text)) for kind, text in KINDS.items() if decided or kind == "complaint"],
        grounds=[(ground, visit.say(text)) for ground, text in GROUNDS.items()],
        typed=visit.typed, chosen=visit.form.get("grounds", ()), id=visit.typed("id") or str(uuid.uuid4()),
    )  # fmt: skip
