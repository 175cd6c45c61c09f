"""Judges' rounds on a practical's pass mark."""

import uuid
from collections.abc import Callable

from fastapi.responses import Response

from app.permissions import DIRECTOR
from app.queries.judging import judges_of
from app.queries.judging_pages import judging_choices, judging_lines, judging_overview
from app.use_cases.judging import Answers, decide_pass_mark, end_round, open_judging, open_second_round, send_answers
from app.web.door import Pages
from app.web.typed import typed_number, whole_number
from app.web.visit import Here, Visit
from curriculum.faults import N_, NotFoundError, RefusedError

pages = Pages()


@pages.get("/judging", may="judge pass marks")
def panels(visit: Here) -> Response:
    """The panels: every one for the director, their own for a judge."""
    with visit.store.reading(visit.school_id) as work:
        lines = judging_lines(work, visit.person.id, DIRECTOR in visit.roles, visit.language)
    practical = visit.request.query_params.get("practical", "")
    return visit.show("judging/panels.html", lines=lines, may_open=DIRECTOR in visit.roles, practical=practical)


@pages.get("/judging/new", may="set exams")
def new_panel(visit: Here) -> Response:
    return _new(visit, str(uuid.uuid4()), visit.request.query_params.get("practical", ""), (), [], 200)


@pages.post("/judging/new", may="set exams")
def open_panel(visit: Here) -> Response:
    id, practical, judges = visit.typed("id"), visit.typed("practical"), tuple(visit.form.get("judges", ()))
    try:
        kept = open_judging(visit.store, visit.asker, id[:36], practical, judges)
    except RefusedError as refusal:
        return _new(visit, id, practical, judges, visit.faults(refusal.faults), 422)
    return visit.go(f"/judging/{kept.id}", visit.say(N_("The first round is open. The judges are told by mail.")))


@pages.get("/judging/{judging_id}", may="judge pass marks")
def panel(visit: Here, judging_id: str) -> Response:
    return _panel(visit, judging_id, [], 200)


@pages.post("/judging/{judging_id}/answers", may="judge pass marks")
def answer(visit: Here, judging_id: str) -> Response:
    """A judge's answers of a round, sent for good."""
    answers = Answers(whole_number(visit.typed("round")), _numbers(visit, "mark."), _numbers(visit, "bound."))
    return _do(
        visit, judging_id, lambda: send_answers(visit.store, visit.asker, judging_id, answers),
        N_("Sent. The answers are shown when the round is over."),
    )  # fmt: skip


@pages.post("/judging/{judging_id}/close", may="set exams")
def close(visit: Here, judging_id: str) -> Response:
    return _do(visit, judging_id, lambda: end_round(visit.store, visit.asker, judging_id), N_("The round is over."))


@pages.post("/judging/{judging_id}/second", may="set exams")
def second(visit: Here, judging_id: str) -> Response:
    talk = visit.typed("talk")
    return _do(
        visit, judging_id, lambda: open_second_round(visit.store, visit.asker, judging_id, talk),
        N_("The second round is open."),
    )  # fmt: skip


@pages.post("/judging/{judging_id}/decision", may="write editions")
def decide(visit: Here, judging_id: str) -> Response:
    """Keep the decision; a draft of the practical with the new mark begins, to be read and published."""
    try:
        draft = decide_pass_mark(
            visit.store, visit.asker, judging_id, typed_number(visit.typed("at")), visit.typed("reason")
        )
    except RefusedError as refusal:
        return _panel(visit, judging_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/drafts/{draft}", visit.say(N_("Decided. Here is the practical with it: read it, then publish.")))


def _numbers(visit: Visit, prefix: str) -> dict[str, float | None]:
    """The numbers of all fields that begin so; what is typed but no number lies outside every range."""
    typed = {name.removeprefix(prefix): visit.typed(name).strip() for name in visit.form if name.startswith(prefix)}
    return {name: typed_number(text, otherwise=-1.0) if text else None for name, text in typed.items()}


def _do(visit: Visit, judging_id: str, act: Callable[[], None], said: str) -> Response:
    try:
        act()
    except RefusedError as refusal:
        return _panel(visit, judging_id, visit.faults(refusal.faults), 422)
    return visit.go(f"/judging/{judging_id}", visit.say(said))


def _panel(visit: Visit, judging_id: str, faults: list, status: int) -> Response:
    director = DIRECTOR in visit.roles
    with visit.store.reading(visit.school_id) as work:
        judging = work.judgings.by_id(judging_id)
        if judging is None or not (director or visit.person.id in judges_of(judging)):
            raise NotFoundError
        overview = judging_overview(work, judging, visit.person.id, director, visit.language)
    return visit.show(
        "judging/panel.html", status, overview=overview, faults=faults, typed=visit.typed, director=director
    )


def _new(visit: Visit, id: str, practical: str, judges: tuple[str, ...], faults: list, status: int) -> Response:  # noqa: PLR0913
    with visit.store.reading(visit.school_id) as work:
        choices = judging_choices(work)
    return visit.show(
        "judging/new.html", status, id=id, practical=practical, judges=judges, faults=faults, choices=choices
    )
