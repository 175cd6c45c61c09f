"""Sessions as a device sends them, many in one form, and the answer: for each what became of it.

The field `items` is a JSON list of objects, each the fields of one session form as text. The answer holds as many
`items` in the same order: status 200 or 201 with the version that stands, or a problem (RFC 9457) with its places.
"""

import json
from collections.abc import Callable

from app.use_cases.hours_at_once import Outcome
from app.web.errors import HEADINGS, SENTENCES, status_of
from app.web.session_form import SessionForm
from app.web.visit import Visit
from app.wording.dates import day_text, times_text
from app.wording.hours import hours
from app.wording.languages import Language
from app.wording.sessions import parts_text
from assessments.hours.session import Session
from curriculum.faults import N_, Fault, RefusedError, ThroughlineError

MOST_AT_ONCE = 50
MOST_FIELDS = 80


def sent_forms(text: str) -> list[SessionForm]:
    """The forms that were sent; refuses all of it if it is no list of forms, or too long a one."""
    try:
        items = json.loads(text or "[]")
    except (ValueError, RecursionError):
        items = None
    if not isinstance(items, list) or not all(map(_is_form, items)):
        raise RefusedError([Fault("damaged", N_("this is no list of sessions"), field="items")])
    if len(items) > MOST_AT_ONCE:
        sentence = N_("at most {most} sessions at once")
        raise RefusedError([Fault("too-many", sentence, {"most": MOST_AT_ONCE}, field="items")])
    return [SessionForm.typed({name: [_kept(value)] for name, value in one.items()}) for one in items]


def answered(visit: Visit, place: int, outcome: Outcome, logged: Callable[[Session], str]) -> dict[str, object]:
    """What became of the session at this place of the list; `logged` says it in a sentence."""
    if outcome.session is not None:
        return {
            "id": outcome.id,
            "status": 201 if outcome.is_new else 200,
            "version": outcome.session.version,
            "said": logged(outcome.session),
            "next": {"href": f"/hours/sessions/{outcome.id}/notes", "words": visit.say(N_("Note what you saw"))},
        }
    status = status_of(outcome.error)
    own = str(outcome.error) if isinstance(outcome.error, ThroughlineError) and not outcome.faults else ""
    problem = {
        "type": "about:blank",
        "title": visit.say(HEADINGS[status]),
        "status": status,
        "detail": visit.say(own or SENTENCES.get(status, HEADINGS[status])),
        "instance": f"/hours/sessions/{outcome.id}",
        "id": outcome.id,
        "errors": [
            {"pointer": f"#/{place}/{one.field}", "field": one.field, "detail": one.text}
            for one in visit.faults(outcome.faults)
        ],
    }
    if outcome.stands is not None:
        problem["stands"] = {
            "version": outcome.stands.version,
            "words": session_in_a_line(outcome.stands, visit.language),
        }
    return problem


def session_in_a_line(session: Session, language: Language) -> str:
    """A session so that its person knows it again."""
    day, times = day_text(session.day, language.locale), times_text(session.start, session.end, language)
    length, what = hours(session.minutes, language), parts_text(session.parts, language)
    return language(N_("{what}, {day}, {times} ({length})"), what=what, day=day, times=times, length=length)


def _is_form(item: object) -> bool:
    return (
        isinstance(item, dict) and len(item) <= MOST_FIELDS and all(isinstance(value, str) for value in item.values())
    )


def _kept(text: str) -> str:
    """Without what a JSON text can hold and no database keeps: the zero character and halves of characters."""
    return text.replace("\x00", "").encode("utf-8", "ignore").decode()
