"""Attempts at spotting faults in the demo school: invented answers from a simple model of an eye that gets better."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random

from app.queries.spotting_attempts import newest_lessons, order_of
from app.storage.spotting import Attempt
from app.storage.work import School, Store, Work
from assessments.spotting.lesson import Moment, SpottingLesson
from assessments.spotting.scoring import Answer
from curriculum.repertoire.exercise import WEIGHTS

LESSONS = ("first-mat", "reformer-second-month", "sore-morning", "chair-and-table")


@dataclass(frozen=True, slots=True)
class DemoSpotter:
    """`eye` is the d′ of the first attempt, `leaning` its criterion; `days_ago` when each lesson was gone through."""

    person: str
    eye: float
    leaning: float
    days_ago: tuple[int, ...]
    again: int = 0
    open: int = 0


SPOTTERS = (
    DemoSpotter("trainee-1", 0.9, 0.3, (190, 120, 40), again=12, open=4),
    DemoSpotter("trainee-2", 1.4, -0.2, (300, 210, 90)),
    DemoSpotter("trainee-3", 0.7, 0.5, (60,)),
    DemoSpotter("trainee-4", 2.0, 0.0, (400, 330, 200, 100)),
    DemoSpotter("trainee-6", 1.1, -0.4, (150, 35)),
    DemoSpotter("trainee-7", 1.8, 0.2, (250, 170, 60, 20)),
    DemoSpotter("examiner-1", 2.2, -0.3, (140, 70, 30), open=7),
    DemoSpotter("examiner-2", 2.0, 0.2, (135, 66)),
)


def add_demo_spotting(store: Store, school: School, now: datetime) -> None:
    """Attempts of those people of the demo who are there."""
    with store.writing(school.id) as work:
        edition_id, lessons = newest_lessons(work)
        chance, here = Random(41), work.people.names()
        for one in SPOTTERS:
            if one.person in here:
                _go_through(work, chance, one, {id: lessons.lesson(id) for id in LESSONS}, edition_id, now)
        work.commit()


def _go_through(
    work: Work, chance: Random, one: DemoSpotter, lessons: dict[str, SpottingLesson], edition_id: str, now: datetime
) -> None:
    times = [(id, days, None) for id, days in zip(LESSONS, one.days_ago, strict=False)]
    times += [(LESSONS[0], one.again, None)] if one.again else []
    times += [(LESSONS[-1], 1, one.open)] if one.open else []
    for number, (id, days, only) in enumerate(times, start=1):
        at = now - timedelta(days=days, minutes=20)
        attempt = Attempt(f"spotting-{one.person}-{number}", one.person, edition_id, id, number, f"seed {number}", at)
        work.spotting.add(attempt)
        eye = one.eye + 0.25 * (number - 1) + (1.2 if id in [time[0] for time in times[: number - 1]] else 0)
        for place, moment in enumerate(order_of(lessons[id], attempt)[:only], start=1):
            answer = _answer(chance, moment, eye, one.leaning)
            work.spotting.add_answer(attempt.id, place, answer, at + timedelta(minutes=place))


def _answer(chance: Random, moment: Moment, eye: float, leaning: float) -> Answer:
    """Evidence is normal, further up by `eye` where a fault is planted; the line is drawn half way, and leans."""
    evidence = chance.gauss(eye / 2 if moment.is_faulty else -eye / 2, 1) - leaning
    wrong, kind = evidence > 0, ""
    if wrong and chance.random() < 0.6:
        right = moment.is_faulty and chance.random() < 0.8
        kind = moment.fault.weight if right else chance.choice(WEIGHTS)
    return Answer(moment.id, wrong, abs(evidence) > 0.7, kind)
