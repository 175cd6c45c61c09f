"""Fault spotting as its pages show it: the lessons, the moment that is due, what was planted, and one's eye over time."""

from dataclasses import dataclass
from datetime import datetime

from app.queries.spotting_attempts import (
    finished,
    lesson_of,
    lessons_of,
    newest_lessons,
    order_of,
    result_href,
    when_text,
)
from app.queries.spotting_over_time import OverTime, over_time
from app.storage.spotting import AnsweredAttempt
from app.storage.work import Work
from app.wording import spotting as words
from app.wording.languages import Language
from app.wording.repertoire import WEIGHTS
from assessments.spotting.lesson import Moment
from assessments.spotting.scoring import Answer, Counts, eye
from curriculum.faults import N_, NotFoundError

SEEN_BY_NAME = N_("Your school has decided that its director sees each examiner's figures by name.")
SEEN_WITHOUT_NAMES = N_("Only you see your answers. The director sees the group as a whole, without names.")


@dataclass(frozen=True, slots=True)
class LessonLine:
    """A lesson in the list; `begun` says how far an open attempt is, "" for none."""

    title: str
    setting: str
    href: str
    moments: int
    begun: str
    times: int


@dataclass(frozen=True, slots=True)
class SpottingOverview:
    """Lessons open to somebody, what their first times through say together, and every time through."""

    lessons: tuple[LessonLine, ...]
    frame: str
    together: tuple[str, ...]
    over_time: OverTime | None


@dataclass(frozen=True, slots=True)
class LessonStart:
    """A lesson before it is begun; `seen_by` says who will see the answers."""

    id: str
    title: str
    setting: str
    frame: str
    moments: int
    seen_by: str
    times: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class DueMoment:
    """The moment that is due in an attempt."""

    attempt_id: str
    lesson_id: str
    title: str
    setting: str
    place: int
    of: int
    client: str
    teacher: str


@dataclass(frozen=True, slots=True)
class SeenMoment:
    """A moment after the end: what was said, what was there; `right` whether they agree."""

    client: str
    teacher: str
    said: str
    outcome: str
    right: bool
    planted: tuple[tuple[str, str], ...]
    sound: str


@dataclass(frozen=True, slots=True)
class SpottingResult:
    """An attempt that is over."""

    title: str
    when: str
    again: bool
    frame: str
    sentences: tuple[str, ...]
    rows: tuple[tuple[str, str], ...]
    moments: tuple[SeenMoment, ...]
    lesson_href: str


def spotting_overview(work: Work, person_id: str, now: datetime, zone: str, language: Language) -> SpottingOverview:
    """What one sees before choosing a lesson."""
    _, lessons = newest_lessons(work)
    attempts = work.spotting.of_person(person_id)
    over = finished(work, attempts)
    done = {one.known.attempt.id for one in over}
    still_open = {one.attempt.lesson: one for one in attempts if one.attempt.id not in done}
    lines = []
    for lesson in lessons.lessons if lessons else ():
        begun = still_open.get(lesson.id)
        of = len(lesson_of(work, begun.attempt).moments) if begun else 0
        times = sum(one.lesson.id == lesson.id for one in over)
        far = words.of_all(len(begun.answers), of, language) if begun else ""
        lines.append(
            LessonLine(lesson.title, lesson.setting, f"/spotting/{lesson.id}", len(lesson.moments), far, times)
        )
    firsts = [one.counts for one in over if one.first]
    together = words.eye_sentences(eye(sum(firsts, Counts())), language) if firsts else ()
    return SpottingOverview(
        tuple(lines), lessons.frame if lessons else "", together, over_time(over, now, zone, language)
    )


def lesson_start(
    work: Work, person_id: str, lesson_id: str, examiner: bool, zone: str, language: Language
) -> LessonStart:
    """A lesson of the edition in use; `NotFoundError` if it has none of this id."""
    _, lessons = newest_lessons(work)
    lesson = lessons.lesson(lesson_id) if lessons else None
    if lesson is None:
        raise NotFoundError
    over = [one for one in finished(work, work.spotting.of_person(person_id)) if one.known.attempt.lesson == lesson_id]
    named = examiner and lessons.examiners == "each"
    seen_by = SEEN_BY_NAME if named else SEEN_WITHOUT_NAMES
    times = tuple((when_text(one, zone, language), result_href(one.known.attempt)) for one in over)
    return LessonStart(
        lesson.id, lesson.title, lesson.setting, lessons.frame, len(lesson.moments), language(seen_by), times
    )


def due_moment(work: Work, known: AnsweredAttempt) -> DueMoment:
    """The first moment of an open attempt that has no answer."""
    lesson, place = lesson_of(work, known.attempt), len(known.answers) + 1
    moment = order_of(lesson, known.attempt)[place - 1]
    return DueMoment(
        known.attempt.id, lesson.id, lesson.title, lesson.setting, place, len(lesson.moments), moment.client,
        moment.teacher,
    )  # fmt: skip


def spotting_result(work: Work, known: AnsweredAttempt, zone: str, language: Language) -> SpottingResult | None:
    """What was planted and what was seen; None while the attempt is open."""
    every = finished(work, work.spotting.of_person(known.attempt.person_id))
    one = next((one for one in every if one.known.attempt.id == known.attempt.id), None)
    if one is None:
        return None
    found = one.eye
    rows = (
        (language(N_("Eye for faults (d′) with its range")), words.figure_text(found.d_prime, language)),
        (language(N_("Leaning (c) with its range; above 0 lets things pass")), words.figure_text(found.criterion, language)),
    )  # fmt: skip
    moments = tuple(_seen(one.lesson.moment(said.moment), said, language) for said in known.answers)
    return SpottingResult(
        one.lesson.title, when_text(one, zone, language), not one.first, lessons_of(work, known.attempt).frame,
        words.eye_sentences(found, language), rows, moments, f"/spotting/{one.lesson.id}",
    )  # fmt: skip


def _seen(moment: Moment, said: Answer, language: Language) -> SeenMoment:
    planted, right = (), said.wrong == moment.is_faulty
    if moment.fault:
        kind = language(WEIGHTS[moment.fault.weight])
        if said.kind:
            kind = language(N_("{kind}; you said {named}"), kind=kind, named=language(WEIGHTS[said.kind]))
        planted = (
            (language(N_("What was wrong")), moment.fault.what),
            (language(N_("Why")), moment.fault.why),
            (language(N_("Kind")), kind),
            (language(N_("What one would say")), moment.fault.say),
        )
        outcome = N_("A planted fault, found") if right else N_("A planted fault, missed")
    else:
        outcome = N_("Sound, and left in peace") if right else N_("Sound, but called wrong")
    return SeenMoment(
        moment.client,
        moment.teacher,
        words.verdict_text(said, language),
        language(outcome),
        right,
        planted,
        moment.sound,
    )
