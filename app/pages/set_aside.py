"""An exam set aside as void or not completed until it is decided: noted, seen, taken back."""

from fastapi.responses import Response

from app.queries.exams import exam_head
from app.queries.set_aside import set_aside, shown_aside
from app.use_cases.setting_aside import note_set_aside, take_back
from app.web.door import Pages
from app.web.typed import whole_number
from app.web.visit import Here, Visit
from app.wording.practicals import OUTCOMES, VOID_CAUSES
from assessments.practicals.deciding import Outcome
from assessments.practicals.set_aside import ASIDE, SetAside
from curriculum.faults import N_, Fault, NotFoundError, RefusedError

pages = Pages()


@pages.get("/exams/{exam_id}/set-aside", may="decide exams")
def one(visit: Here, exam_id: str) -> Response:
    return _show(visit, exam_id, [], 200)


@pages.post("/exams/{exam_id}/set-aside", may="decide exams")
def note(visit: Here, exam_id: str) -> Response:
    typed = visit.typed("outcome")
    try:
        if typed not in set(Outcome):
            raise RefusedError([Fault("no-outcome", N_("choose void or not completed"), field="outcome")])
        noted = SetAside(Outcome(typed), visit.typed("reason").strip(), visit.typed("cause"))
        note_set_aside(visit.store, visit.asker, exam_id, noted)
    except RefusedError as refusal:
        return _show(visit, exam_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/exams/{exam_id}", visit.say(N_("Noted. It can be taken back until the exam is decided.")))


@pages.post("/exams/{exam_id}/set-aside/taken-back", may="decide exams")
def undo(visit: Here, exam_id: str) -> Response:
    take_back(visit.store, visit.asker, exam_id, whole_number(visit.typed("number")))
    return visit.go(f"/exams/{exam_id}", visit.say(N_("Taken back. The exam stands as before.")))


def _show(visit: Visit, exam_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        exam = work.exams.by_id(exam_id)
        if exam is None:
            raise NotFoundError
        head, kept = exam_head(work, exam, visit.language), set_aside(work, exam_id)
        shown = shown_aside(kept, work.people.names(), visit.school.time_zone, visit.language) if kept else None
        decided = bool(work.exams.decisions(exam_id))
    outcomes = [(one, visit.say(OUTCOMES[one])) for one in ASIDE]
    causes = [("", visit.say(N_("choose"))), *((cause, visit.say(words)) for cause, words in VOID_CAUSES.items())]
    return visit.show(
        "set_aside/set_aside.html", status, head=head, exam_id=exam_id, shown=shown, decided=decided,
        outcomes=outcomes, causes=causes, faults=faults, typed=visit.typed,
    )  # fmt: skip
