"""Study: five to recall, one at a time; how well each was known; how much of each series is known."""

import uuid
from functools import partial

from fastapi.responses import Response

from app.clock import day_in
from app.queries import study as query
from app.storage.recalls import Wish
from app.use_cases import study as act
from app.use_cases.study import GivenAnswer
from app.web.door import Pages
from app.web.offline import from_outbox, moment_said, taken_or_why
from app.web.own_edition import own_edition
from app.web.visit import Here, Visit
from app.wording.dates import moment_text
from app.wording.study import ANSWERS
from curriculum.faults import N_, RefusedError
from curriculum.repertoire.edition import Edition

pages = Pages()


@pages.get("/study", may="study")
def study(visit: Here) -> Response:
    """What is left of today's five; `more` asks for five more."""
    return _study(visit, [], 200)


@pages.post("/study", may="study")
def answer(visit: Here) -> Response:
    """Take one answer, from the page or sent later by the device."""
    edition = own_edition(visit)
    moment = moment_said(visit.typed("at"), visit.now)
    given = GivenAnswer(
        visit.typed("id"), visit.typed("question"), visit.typed("answer"), day_in(moment, visit.school.time_zone)
    )
    questions = frozenset(one.id for one in query.all_questions(edition))
    take = partial(act.take_answer, visit.store, visit.asker, given, questions)
    if from_outbox(visit):
        return taken_or_why(visit, take)
    try:
        take()
    except RefusedError as refusal:
        return _study(visit, visit.faults(refusal.faults), 422)
    return visit.go("/study")


@pages.post("/study/undo", may="study")
def undo(visit: Here) -> Response:
    """Take the last answer back."""
    take_back = partial(act.undo, visit.store, visit.asker, visit.typed("id"))
    if from_outbox(visit):
        return taken_or_why(visit, take_back)
    take_back()
    return visit.go("/study", visit.say(N_("Your last answer is taken back.")))


@pages.post("/study/choice", may="study")
def choose(visit: Here) -> Response:
    """Choose apparatus and the highest level; what the edition does not have is left out."""
    edition = own_edition(visit)
    typed = visit.form.get("apparatus", ())
    apparatus = tuple(one.id for one in edition.apparatus if one.id in typed)
    level = visit.typed("level")
    act.choose(visit.store, visit.asker, Wish(apparatus, level if level in _levels(edition) else ""))
    return visit.go("/study", visit.say(N_("Kept: you study what you chose.")))


@pages.get("/study/coverage", may="study")
def coverage(visit: Here) -> Response:
    """How many questions of each series are known."""
    edition = own_edition(visit)
    with visit.store.reading(visit.school_id) as work:
        found = query.known_by_series(work, visit.person.id, edition, visit.today)
    return visit.show("study/coverage.html", apparatus=found, figure=visit.language.figure)


def _study(visit: Visit, faults: list, status: int) -> Response:
    edition = own_edition(visit)
    more = "more" in visit.request.query_params
    with visit.store.reading(visit.school_id) as work:
        overview = query.study_overview(
            work, visit.person.id, edition, visit.today, more, lambda: str(uuid.uuid4()), visit.language
        )
    return visit.show(
        "study/study.html",
        status,
        overview=overview,
        faults=faults,
        answers=[(value, visit.say(words)) for value, words in ANSWERS.items()],
        apparatus=[(one.id, one.name) for one in edition.apparatus if edition.on(one.id)],
        levels=[("", visit.say(N_("any level"))), *_levels(edition).items()],
        made=moment_text(visit.now, visit.school.time_zone, visit.locale),
    )


def _levels(edition: Edition) -> dict[str, str]:
    return {one.id: one.name for one in edition.levels}
