"""A day of exams as it stands, seated again where it has to be, and taken away as a calendar."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from fastapi.responses import Response

from app.queries.day_plan import DayExam, DayShown, day_shown
from app.queries.incidents import withdrawn_text
from app.use_cases.reseating_days import keep_again, plan_again
from app.web.again_form import AgainForm, moves_of
from app.web.door import Pages
from app.web.exam_calendar import day_calendar
from app.web.visit import Here, Visit
from app.wording.dates import times_text
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@dataclass(frozen=True, slots=True)
class Line:
    """One exam of a proposal: whether it is seated again, when it would begin and where."""

    exam: DayExam
    again: bool
    starts: int
    room: str
    times: str

    @property
    def moves(self) -> bool:
        return (self.starts, self.room) != (self.exam.starts, self.exam.room)


@pages.get("/exam-days/{day}", may="set exams")
def one_day(visit: Here, day: str) -> Response:
    """The whole day."""
    shown = _shown(visit, day)
    with visit.store.reading(visit.school_id) as work:
        found = [withdrawn_text(work, room, visit.language) for room in shown.rooms]
    return visit.show("day_plans/day.html", shown=shown, withdrawn=list(dict.fromkeys(filter(None, found))))


@pages.get("/exam-days/{day}/exams.ics", may="set exams")
def calendar(visit: Here, day: str) -> Response:
    """The whole day as a calendar."""
    shown = _shown(visit, day)
    with visit.store.reading(visit.school_id) as work:
        return day_calendar(visit, work, shown)


@pages.get("/exam-days/{day}/again", may="set exams")
def again(visit: Here, day: str) -> Response:
    """What is still to be held, and from when."""
    shown = _shown(visit, day)
    local = visit.now.astimezone(ZoneInfo(visit.school.time_zone))
    now = -(-(local.hour * 60 + local.minute) // 5) * 5 if shown.day == local.date() else 0
    return _again(visit, shown, AgainForm.begun(shown, min(now, 23 * 60 + 55)), [], 200)


@pages.post("/exam-days/{day}/again", may="set exams")
def propose(visit: Here, day: str) -> Response:
    """What would move; nothing has yet."""
    shown, form = _shown(visit, day), AgainForm.typed(visit.form)
    try:
        request = form.request(shown.day)
        with visit.store.reading(visit.school_id) as work:
            moved = {one.id: one for one in plan_again(work, request)}
    except RefusedError as refusal:
        return _again(visit, shown, form, visit.faults(refusal.faults), 422)
    return _proposal(visit, shown, {one.id: (one.starts, one.room) for one in moved.values()}, [], 200)


@pages.post("/exam-days/{day}/kept", may="set exams")
def keep(visit: Here, day: str) -> Response:
    shown, moves = _shown(visit, day), moves_of(visit.form)
    try:
        number = keep_again(visit.store, visit.asker, shown.day, moves, visit.typed("reason"))
    except RefusedError as refusal:
        moved = {one.exam_id: (one.starts, one.room) for one in moves}
        return _proposal(visit, shown, moved, visit.faults(refusal.faults), 422)
    visit.ask("mail")
    said = visit.language.ngettext("{number} exam has moved.", "{number} exams have moved.", number)
    return visit.go(f"/exam-days/{day}", f"{said} {visit.say(N_('Everybody concerned is told by mail.'))}")


def _again(visit: Visit, shown: DayShown, form: AgainForm, faults: list, status: int) -> Response:
    rest = [(one.id, f"{one.times} · {one.candidate}") for one in shown.exams if not one.begun]
    return visit.show("day_plans/again.html", status, shown=shown, form=form, faults=faults, rest=rest)


def _proposal(
    visit: Visit, shown: DayShown, moved: Mapping[str, tuple[int, str]], faults: list, status: int
) -> Response:
    """`moved` says the minute and the room by exam."""
    lines = []
    for one in shown.exams:
        starts, room = moved.get(one.id, (one.starts, one.room))
        times = times_text(starts, starts + one.minutes, visit.language)
        lines.append(Line(one, one.id in moved, starts, room, times))
    lines.sort(key=lambda line: (line.starts, line.exam.id))
    return visit.show(
        "day_plans/proposal.html", status, shown=shown, lines=lines, faults=faults, reason=visit.typed("reason")
    )


def _shown(visit: Visit, day: str) -> DayShown:
    try:
        found = date.fromisoformat(day)
    except ValueError as error:
        raise NotFoundError from error
    with visit.store.reading(visit.school_id) as work:
        shown = day_shown(work, found, visit.today, visit.language)
    if not shown.exams:
        raise NotFoundError
    return shown
