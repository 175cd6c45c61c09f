"""What the repertoire pages show: the order, one apparatus, one exercise, and what a search finds."""

from dataclasses import dataclass

from app.files.repertoire import edition_from_documents
from app.permissions import DIRECTOR, EXAMINER
from app.storage.work import Work
from app.wording.languages import ENGLISH, Language
from app.wording.repertoire import load_text, repetitions_text, seconds_text
from curriculum.faults import N_, NotFoundError
from curriculum.repertoire.edition import Edition, Series
from curriculum.repertoire.exercise import Exercise
from curriculum.repertoire.searching import search

MOST_FOUND = 60
MOST_ASKED = 80


@dataclass(frozen=True, slots=True)
class SeriesPart:
    """A series in the order: its name and how many exercises it has."""

    name: str
    href: str
    number: int


@dataclass(frozen=True, slots=True)
class ApparatusPart:
    """An apparatus in the order, with its series; `number` counts its exercises."""

    name: str
    href: str
    number: int
    series: tuple[SeriesPart, ...]


@dataclass(frozen=True, slots=True)
class ExerciseLine:
    """One exercise as a line of the order; texts are ready to be shown."""

    place: int
    name: str
    href: str
    level: str
    springs: str
    repetitions: str
    spot: str
    seconds: str
    in_detail: bool


@dataclass(frozen=True, slots=True)
class ApparatusOverview:
    """An apparatus and its exercises in order: (id of the series, its name, lines)."""

    name: str
    load: str
    at_rest: str
    series: tuple[tuple[str, str, tuple[ExerciseLine, ...]], ...]


@dataclass(frozen=True, slots=True)
class Found:
    """An exercise that a search found; `text` is where the words stand, if not in the name."""

    line: ExerciseLine
    apparatus: str
    text: str


def subjects_of(work: Work, language: Language = ENGLISH) -> dict[str, str]:
    """What a safety notice can be about: apparatus and exercises of the newest edition, ids and names."""
    stored = work.editions.newest("repertoire")
    if stored is None:
        return {}
    edition = edition_from_documents(stored.documents)
    named = {one.id: one.name for one in edition.apparatus}
    sentence = N_("{apparatus}: {exercise}")
    exercises = {
        one.id: language(sentence, apparatus=named[one.apparatus], exercise=one.name) for one in edition.exercises
    }
    return named | exercises


def notices_about(work: Work, *subjects: str) -> tuple[str, ...]:
    """Standing notices about everything or any of these."""
    return tuple(one.text for one in work.notices.standing() if one.about in ("", *subjects))


def notices_by_subject(work: Work) -> dict[str, tuple[str, ...]]:
    """Standing notices by what they are about; "" for everything."""
    found: dict[str, tuple[str, ...]] = {}
    for one in work.notices.standing():
        found[one.about] = (*found.get(one.about, ()), one.text)
    return found


def repertoire_of(work: Work, person_id: str, roles: frozenset[str]) -> Edition | None:
    """The edition that a person works with: the school's newest, or for a trainee the one enrolled with."""
    if roles & {DIRECTOR, EXAMINER}:
        stored = work.editions.newest("repertoire")
    else:
        enrolments = sorted(work.enrolments.of_person(person_id), key=lambda one: one.enrolled_on)
        stored = work.editions.by_id(enrolments[-1].repertoire_id) if enrolments else None
    return edition_from_documents(stored.documents) if stored else None


def order_overview(edition: Edition) -> tuple[ApparatusPart, ...]:
    """Every apparatus with its series, in the order of the edition."""
    return tuple(
        ApparatusPart(
            one.name,
            f"/repertoire/{one.id}",
            len(edition.on(one.id)),
            tuple(_series_part(edition, part) for part in edition.series_of(one.id)),
        )
        for one in edition.apparatus
    )


def _series_part(edition: Edition, series: Series) -> SeriesPart:
    number = len(edition.in_series(series.id))
    return SeriesPart(series.name, f"/repertoire/{series.apparatus}#{series.id}", number)


def apparatus_overview(edition: Edition, apparatus_id: str, language: Language = ENGLISH) -> ApparatusOverview:
    """One apparatus, its exercises in order; raises `NotFoundError` for one the edition doesn't have."""
    apparatus = edition.apparatus_named(apparatus_id)
    if apparatus is None:
        raise NotFoundError

    def lines(series: Series) -> tuple[ExerciseLine, ...]:
        return tuple(exercise_line(edition, one, language) for one in edition.in_series(series.id))

    series = tuple((one.id, one.name, lines(one)) for one in edition.series_of(apparatus_id))
    return ApparatusOverview(apparatus.name, apparatus.load, apparatus.at_rest, series)


def exercise_line(edition: Edition, exercise: Exercise, language: Language = ENGLISH) -> ExerciseLine:
    """An exercise as a line of the order."""
    return ExerciseLine(
        exercise.place,
        exercise.name,
        exercise_href(exercise.id),
        level_name(edition, exercise.level),
        load_text(exercise.set_up, language),
        all_repetitions_text(exercise, language),
        language(N_("spot required")) if exercise.spot else language(N_("no spot required")),
        seconds_text(exercise.seconds, language),
        exercise.in_detail,
    )


def all_repetitions_text(exercise: Exercise, language: Language = ENGLISH) -> str:
    """Repetitions of an exercise in one breath, those of equal positions said once."""
    texts = tuple(dict.fromkeys(repetitions_text(one.repetitions, language) for one in exercise.positions))
    if len(exercise.positions) == 1:
        return texts[0]
    if len(texts) == 1:
        sentence = N_("{repetitions} in each of {number} positions")
        return language(sentence, repetitions=texts[0], number=len(exercise.positions))
    return "; ".join(f"{one.name} {repetitions_text(one.repetitions, language)}" for one in exercise.positions)


def found_in(edition: Edition, asked: str, language: Language = ENGLISH) -> tuple[Found, ...]:
    """Exercises that answer best to a name, or to words of what one sees or says; the best first."""
    names = {one.id: one.name for one in edition.apparatus}
    return tuple(
        Found(exercise_line(edition, one.exercise, language), names[one.exercise.apparatus], one.text)
        for one in search(edition, asked[:MOST_ASKED], MOST_FOUND)
    )


def exercise_href(exercise_id: str) -> str:
    return f"/repertoire/exercises/{exercise_id}"


def level_name(edition: Edition, level: str) -> str:
    return next((one.name for one in edition.levels if one.id == level), level)
