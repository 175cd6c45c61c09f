"""Sessions as a device sends them, many in one form, and the answer: for each what became of it.

The field `items` is a JSON list of objects, each the fields of one session form as text. The answer holds as many
`items` in the same order: status 200 or 201 with the version that stands, or a problem (RFC 9457) with its places.
"""

from collections.abc import Callable

from app.use_cases.hours_at_once import Outcome
from app.web.offline import problem_of, sent_items
from app.web.session_form import SessionForm
from app.web.visit import Visit
from app.wording.dates import day_text, times_text
from app.wording.hours import hours
from app.wording.languages import Language
from app.wording.sessions import parts_text
from assessments.hours.session import Session
from curriculum.faults import N_


def sent_forms(text: str) -> list[SessionForm]:
    """The forms that were sent; refuses all of it if it is no list of forms, or too long a one."""
    return [SessionForm.typed({name: [value] for name, value in one.items()}) for one in sent_items(text)]


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
    instance = f"/hours/sessions/{outcome.id}"
    problem = problem_of(visit, place, outcome.id, instance, outcome.error, outcome.faults)
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
