"""Notes of some of the demo's sessions: a lesson's exercises, now and then cues, faults and a line. All invented."""

from datetime import datetime

from app.storage.enrolments import Enrolment
from app.storage.notes import SessionNote
from app.storage.work import School, Store, Work
from app.use_cases.notes import write_notes
from assessments.hours.session import Session
from curriculum.competencies.notes import NotedExercise, NotedFault

MOST_SESSIONS = 9
A_LESSON = 6
# In the order of the edition, so that a lesson goes along it; the later ones are reached by those who note more.
ORDER = {
    "reformer": (
        "reformer-footwork", "reformer-hundred", "reformer-overhead", "reformer-coordination", "reformer-leg-circles",
        "reformer-frog", "reformer-rowing-sternum", "reformer-rowing-ninety", "reformer-swan", "reformer-pulling-straps-1",
        "reformer-long-stretch", "reformer-down-stretch", "reformer-up-stretch", "reformer-elephant",
        "reformer-stomach-massage-round", "reformer-short-box-round", "reformer-short-box-flat",
        "reformer-knee-stretch-round",
    ),
    "mat": (
        "mat-hundred", "mat-roll-up", "mat-roll-over", "mat-one-leg-circle", "mat-rolling-back", "mat-one-leg-stretch",
        "mat-double-leg-stretch", "mat-spine-stretch", "mat-open-leg-rocker", "mat-corkscrew", "mat-saw", "mat-swan-dive",
    ),
    "chair": (
        "chair-pump-toes", "chair-pump-arches", "chair-pump-heels", "chair-push-down", "chair-swan", "chair-pull-up",
    ),
    "trapeze_table": ("table-roll-back", "table-breathing", "table-push-through", "table-tower", "table-leg-springs"),
}  # fmt: skip
HEARD = {
    "reformer-footwork": (1, 5), "reformer-hundred": (2,), "reformer-frog": (2,), "reformer-leg-circles": (1, 3),
    "mat-hundred": (1, 2), "mat-roll-up": (3,), "chair-pump-toes": (1, 2), "table-roll-back": (1,),
}  # fmt: skip
SEEN = {
    "reformer-footwork": NotedFault("hips-lift", ("correction", "step-two-inch")),
    "reformer-hundred": NotedFault("chin", ("correction", "step-head-down")),
    "reformer-frog": NotedFault("tail-lifts", ("step-half",)),
    "mat-roll-up": NotedFault("jerk", ("step-bent-knees",)),
    "chair-pump-toes": NotedFault("bangs", ("correction",)),
    "table-roll-back": NotedFault("drops", ("step-half-back",)),
}
LINES = {
    "reformer-footwork": "Half the words of last week, twice the rhythm.",
    "mat-roll-up": "Stopped talking and counted; it went by itself.",
    "table-roll-back": "The hand stayed at the bar until it was on its hook.",
}
FEWER = ("enrolment-5", "enrolment-8")


def add_demo_notes(store: Store, school: School, now: datetime) -> None:
    """Note some sessions of each trainee of now; some who do less note less."""
    with store.writing(school.id) as work:
        for enrolment in work.enrolments.all():
            if enrolment.id.startswith("enrolment-"):
                _note(work, enrolment, 3 if enrolment.id in FEWER else MOST_SESSIONS, now)
        work.commit()


def _note(work: Work, enrolment: Enrolment, most: int, now: datetime) -> None:
    """Of each activity and apparatus some sessions, each the next stretch of the order."""
    kinds: dict[tuple[str, str], list[Session]] = {}
    for session in work.ledger.of_enrolment(enrolment.id):
        kinds.setdefault((session.parts[0].activity, session.parts[0].apparatus), []).append(session)
    for (activity, apparatus), sessions in kinds.items():
        order = ORDER.get(apparatus, ())
        lessons = [order[start : start + A_LESSON] for start in range(0, len(order), A_LESSON)]
        number = max(1, most * len(lessons) // 9) if activity == "observation" else 1
        for session, exercises in zip(sessions[-number:], lessons, strict=False):
            lines = tuple(_line(activity, one) for one in exercises)
            write_notes(work, SessionNote(
                session.id, 1, enrolment.id, enrolment.repertoire_id, enrolment.person_id, now, lines,
            ))  # fmt: skip


def _line(activity: str, exercise: str) -> NotedExercise:
    if activity == "self_practice":
        return NotedExercise(activity, exercise)
    faults = (SEEN[exercise],) if exercise in SEEN else ()
    words = LINES.get(exercise, "") if activity == "observation" else ""
    return NotedExercise(activity, exercise, HEARD.get(exercise, ()), faults, words)
