"""The page on which a session is noted: chosen exercises with their cues and faults, then lists to choose from."""

from dataclasses import dataclass

from app.files.repertoire import edition_from_documents
from app.queries.repertoire import exercise_href, found_in
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.wording import repertoire as words
from app.wording.dates import long_day, times_text
from app.wording.languages import Language
from app.wording.sessions import ACTIVITIES, STATES, in_words, parts_text
from assessments.hours.session import Session
from curriculum.competencies.evidence import ACTIVITY_OF
from curriculum.competencies.notes import NotedExercise, carried, mends_of
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise

MOST_SEARCHED = 12


@dataclass(frozen=True, slots=True)
class Tick:
    """One check box: `name` and `value` as sent, `text` as shown, `hint` a word or two about it."""

    name: str
    value: str
    text: str
    ticked: bool
    hint: str = ""


@dataclass(frozen=True, slots=True)
class FaultTicks:
    """A fault that may have been seen, and what may have mended it."""

    seen: Tick
    mended: tuple[Tick, ...]

    @property
    def is_open(self) -> bool:
        return any(one.ticked for one in self.mended)


@dataclass(frozen=True, slots=True)
class NotedCard:
    """One chosen exercise with all that can be ticked of it; `taught` if the trainee taught it."""

    key: str
    name: str
    href: str
    above: str
    cues: tuple[Tick, ...]
    faults: tuple[FaultTicks, ...]
    words: str
    taught: bool

    @property
    def is_noted(self) -> bool:
        """Whether more than the exercise itself is noted."""
        seen = any(one.ticked for one in self.cues) or any(one.seen.ticked for one in self.faults)
        return seen or bool(self.words)


@dataclass(frozen=True, slots=True)
class SeriesTicks:
    """A series to choose from; `is_open` where something of it is chosen."""

    name: str
    exercises: tuple[Tick, ...]
    is_open: bool


@dataclass(frozen=True, slots=True)
class ActivityTicks:
    """What can be chosen under one activity: (apparatus, its series) pairs."""

    name: str
    apparatus: tuple[tuple[str, tuple[SeriesTicks, ...]], ...]


@dataclass(frozen=True, slots=True)
class NotesOverview:
    """The whole page; `found` are the exercises that a search found, None if none was made."""

    day: str
    what: str
    state: str
    state_kind: str
    cards: tuple[NotedCard, ...]
    activities: tuple[ActivityTicks, ...]
    found: tuple[Tick, ...] | None
    several: bool


def noted_now(work: Work, enrolment: Enrolment, session_id: str) -> tuple[tuple[NotedExercise, ...], str]:
    """What is noted of a session in the trainee's edition, and the form's EDITION/VERSION."""
    note = work.notes.newest(session_id)
    if note is None:
        return (), f"{enrolment.repertoire_id}/0"
    now, before = (_edition(work, one) for one in (enrolment.repertoire_id, note.edition_id))
    known = [one for one in note.lines if now.exercise(one.exercise)]
    return tuple(carried(one, before, now) for one in known), f"{enrolment.repertoire_id}/{note.version}"


def notes_overview(
    work: Work, enrolment: Enrolment, session_id: str, lines: tuple[NotedExercise, ...], asked: str, language: Language
) -> NotesOverview:
    """The page of one session with these lines chosen, and what a search found."""
    session, edition = work.ledger.now(session_id), _edition(work, enrolment.repertoire_id)
    activities = list(dict.fromkeys(part.activity for part in session.parts))
    several = len(activities) > 1
    known = [one for one in lines if edition.exercise(one.exercise) and one.activity in activities]
    state, kind = STATES[session.state]
    return NotesOverview(
        long_day(session.day, language.locale),
        f"{times_text(session.start, session.end, language)} · {parts_text(session.parts, language)}",
        language(state),
        kind,
        tuple(_card(edition, one, several, language) for one in known),
        tuple(_activity(session, edition, one, known, language) for one in activities),
        _found(edition, asked, activities, known, language) if asked else None,
        several,
    )


def _edition(work: Work, edition_id: str) -> Edition:
    return edition_from_documents(work.editions.by_id(edition_id).documents)


def _card(edition: Edition, noted: NotedExercise, several: bool, language: Language) -> NotedCard:
    exercise, key = edition.exercise(noted.exercise), f"{noted.activity}:{noted.exercise}"
    apparatus = edition.apparatus_named(exercise.apparatus).name
    activity = in_words(noted.activity, ACTIVITIES, language)
    cues = tuple(
        Tick(f"cue:{key}", str(place), one.text, place in noted.cues, language(words.CUE_KINDS[one.kind]))
        for place, one in enumerate(exercise.cues, start=1)
    )
    return NotedCard(
        key, exercise.name, exercise_href(exercise.id), f"{activity} · {apparatus}" if several else apparatus,
        cues, _fault_ticks(exercise, noted, key, language), noted.words, ACTIVITY_OF.get(noted.activity) == "taught",
    )  # fmt: skip


def _fault_ticks(exercise: Exercise, noted: NotedExercise, key: str, language: Language) -> tuple[FaultTicks, ...]:
    seen = {one.fault: one.mended for one in noted.faults}
    return tuple(
        FaultTicks(
            Tick(f"fault:{key}", one.id, one.sees, one.id in seen, language(words.WEIGHTS[one.weight])),
            tuple(
                Tick(f"mended:{key}:{one.id}", code, text, code in seen.get(one.id, ()))
                for code, text in mends_of(exercise, one)
            ),
        )
        for one in exercise.faults
    )


def _activity(
    session: Session, edition: Edition, activity: str, chosen: list[NotedExercise], language: Language
) -> ActivityTicks:
    """The apparatus of the session's own parts; all of them where the parts name none that the edition has."""
    named = [part.apparatus.replace("_", "-") for part in session.parts if part.activity == activity]
    own = [one for one in edition.apparatus if one.id in named] or list(edition.apparatus)
    taken = {one.exercise for one in chosen if one.activity == activity}
    groups = tuple((one.name, _series(edition, one.id, activity, taken)) for one in own if edition.on(one.id))
    return ActivityTicks(in_words(activity, ACTIVITIES, language), groups)


def _series(edition: Edition, apparatus: str, activity: str, taken: set[str]) -> tuple[SeriesTicks, ...]:
    found = []
    for series in edition.series_of(apparatus):
        exercises = edition.in_series(series.id)
        left = tuple(_choice(activity, one) for one in exercises if one.id not in taken)
        if left:
            found.append(SeriesTicks(series.name, left, len(left) < len(exercises)))
    return tuple(found)


def _choice(activity: str, exercise: Exercise, hint: str = "") -> Tick:
    return Tick("chosen", f"{activity}:{exercise.id}", exercise.name, False, hint)


def _found(
    edition: Edition, asked: str, activities: list[str], chosen: list[NotedExercise], language: Language
) -> tuple[Tick, ...]:
    taken = {(one.activity, one.exercise) for one in chosen}
    hrefs = {exercise_href(one.id): one for one in edition.exercises}
    found = [hrefs[one.line.href] for one in found_in(edition, asked, language)][:MOST_SEARCHED]
    names = {one.id: one.name for one in edition.apparatus}
    several = len(activities) > 1
    return tuple(
        _choice(activity, one, _hint(names[one.apparatus], activity if several else "", language))
        for one in found
        for activity in activities
        if (activity, one.id) not in taken
    )


def _hint(apparatus: str, activity: str, language: Language) -> str:
    return f"{in_words(activity, ACTIVITIES, language)} · {apparatus}" if activity else apparatus
