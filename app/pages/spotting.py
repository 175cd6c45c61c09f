"""Fault spotting: described lessons, one moment at a time; at the end what was planted, and how good the eye is."""

from fastapi.responses import Response

from app.permissions import EXAMINER
from app.queries import spotting as query
from app.queries.spotting_attempts import is_over, open_attempt
from app.queries.spotting_group import spotting_groups
from app.use_cases import spotting as act
from app.web.door import Pages
from app.web.visit import Here, Visit
from app.wording.repertoire import WEIGHTS
from app.wording.spotting import VERDICTS
from curriculum.faults import N_, Fault, NotFoundError

pages = Pages()


@pages.get("/spotting", may="spot faults")
def lessons(visit: Here) -> Response:
    """The lessons, and what was done before."""
    with visit.store.reading(visit.school_id) as work:
        overview = query.spotting_overview(work, visit.person.id, visit.now, visit.school.time_zone, visit.language)
    return visit.show("spotting/lessons.html", overview=overview)


@pages.get("/spotters", may="read fault spotting of the group")
def group(visit: Here) -> Response:
    """What groups see and miss, without names."""
    with visit.store.reading(visit.school_id) as work:
        found = spotting_groups(work, visit.language)
    return visit.show("spotting/group.html", found=found)


@pages.get("/spotting/{lesson_id}", may="spot faults")
def lesson(visit: Here, lesson_id: str) -> Response:
    """The moment that is due, or the start if nothing is begun."""
    return _lesson(visit, lesson_id, [], 200)


@pages.post("/spotting/{lesson_id}", may="spot faults")
def begin(visit: Here, lesson_id: str) -> Response:
    """Begin; pressed twice it begins once."""
    act.begin_lesson(visit.store, visit.asker, lesson_id)
    return visit.go(f"/spotting/{lesson_id}")


@pages.post("/spotting/{lesson_id}/{attempt_id}", may="spot faults")
def answer(visit: Here, lesson_id: str, attempt_id: str) -> Response:
    """Take the answer to one moment; there is no way back, and pressed twice it counts once."""
    verdict, kind, place = (visit.typed(name) for name in ("verdict", "kind", "place"))
    faults = []
    if verdict not in VERDICTS:
        faults.append(Fault("no-verdict", N_("say whether something is wrong"), field="verdict"))
    if kind not in ("", *WEIGHTS):
        faults.append(Fault("no-kind", N_("choose one of the kinds, or none"), field="kind"))
    if not (place.isascii() and place.isdecimal() and len(place) < 4):
        faults.append(Fault("no-place", N_("this form is damaged; open the page again")))
    if faults:
        return _lesson(visit, lesson_id, visit.faults(faults), 422)
    _, wrong, sure = VERDICTS[verdict]
    kept = act.answer_moment(visit.store, visit.asker, attempt_id, int(place), wrong, sure, kind)
    said = "" if kept else visit.say(N_("That moment was answered already; the first answer stands."))
    with visit.store.reading(visit.school_id) as work:
        over = is_over(work, act.own_attempt(work, visit.person.id, attempt_id))
    return visit.go(f"/spotting/{lesson_id}/{attempt_id}" if over else f"/spotting/{lesson_id}", said)


@pages.get("/spotting/{lesson_id}/{attempt_id}", may="spot faults")
def result(visit: Here, lesson_id: str, attempt_id: str) -> Response:
    """What was planted, and what was seen of it; an attempt that is not over goes on instead."""
    with visit.store.reading(visit.school_id) as work:
        known = act.own_attempt(work, visit.person.id, attempt_id)
        if known.attempt.lesson != lesson_id:
            raise NotFoundError
        found = query.spotting_result(work, known, visit.school.time_zone, visit.language)
    if found is None:
        return visit.go(f"/spotting/{lesson_id}")
    return visit.show("spotting/result.html", result=found)


def _lesson(visit: Visit, lesson_id: str, faults: list, status: int) -> Response:
    with visit.store.reading(visit.school_id) as work:
        known = open_attempt(work, visit.person.id, lesson_id)
        if known is None:
            start = query.lesson_start(
                work, visit.person.id, lesson_id, EXAMINER in visit.roles, visit.school.time_zone, visit.language
            )
            return visit.show("spotting/start.html", status, start=start)
        moment = query.due_moment(work, known)
    return visit.show(
        "spotting/moment.html",
        status,
        moment=moment,
        faults=faults,
        kind=visit.typed("kind"),
        kinds=[("", visit.say(N_("none"))), *((id, visit.say(words)) for id, words in WEIGHTS.items())],
        verdicts=[(value, visit.say(words)) for value, (words, *_) in VERDICTS.items()],
    )
