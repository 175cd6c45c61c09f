"""How many trainees of a school have seen each exercise, and what nobody has seen."""

from collections import defaultdict
from dataclasses import dataclass

from app.files.repertoire import edition_from_documents
from app.queries.enrolled import enrolled_now
from app.queries.repertoire import exercise_href, level_name
from app.storage.work import Work
from app.wording.coverage import COVERED
from app.wording.languages import Language
from curriculum.competencies.evidence import ACTIVITY_OF, counting
from curriculum.repertoire.edition import Edition, Series
from curriculum.repertoire.exercise import Exercise

COUNTED = ("observed", "practised", "assisted", "taught")


@dataclass(frozen=True, slots=True)
class CountedExercise:
    """One exercise: how many trainees have seen it (observed, assisted with or taught), and `counts` of each activity."""

    name: str
    href: str
    level: str
    seen: int
    counts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class CountedSeries:
    """A series as a line of its exercises; `least` is the smallest number of trainees who have seen one of them."""

    id: str
    name: str
    exercises: tuple[CountedExercise, ...]

    @property
    def least(self) -> int:
        return min(one.seen for one in self.exercises)


@dataclass(frozen=True, slots=True)
class CountedApparatus:
    """An apparatus with its series, and what nobody has seen of it by level: (level, exercises)."""

    name: str
    href: str
    series: tuple[CountedSeries, ...]
    unseen: tuple[tuple[str, tuple[CountedExercise, ...]], ...]


@dataclass(frozen=True, slots=True)
class CohortCoverage:
    """The map of the cohort."""

    edition: str
    trainees: int
    number: int
    unseen: int
    columns: tuple[str, ...]
    apparatus: tuple[CountedApparatus, ...]


def cohort_coverage(work: Work, language: Language) -> CohortCoverage | None:
    """Counted over those who are still at the school, in the school's newest edition; None without one."""
    stored = work.editions.newest("repertoire")
    if stored is None:
        return None
    edition = edition_from_documents(stored.documents)
    own = {one.id for one in enrolled_now(work)}
    who: dict[tuple[str, str], set[str]] = defaultdict(set)
    for enrolment_id, state, activity, exercise in work.notes.seen_by_enrolment():
        if enrolment_id in own and counting(activity, state) == "covered":
            who[exercise, ACTIVITY_OF[activity]].add(enrolment_id)
    apparatus = tuple(_apparatus(edition, one.id, who) for one in edition.apparatus if edition.on(one.id))
    unseen = sum(len(exercises) for one in apparatus for _, exercises in one.unseen)
    columns = tuple(language(COVERED[kind]) for kind in COUNTED)
    return CohortCoverage(edition.title, len(own), len(edition.exercises), unseen, columns, apparatus)


def _apparatus(edition: Edition, apparatus_id: str, who: dict[tuple[str, str], set[str]]) -> CountedApparatus:
    series = tuple(_series(edition, one, who) for one in edition.series_of(apparatus_id) if edition.in_series(one.id))
    counted = [one for some in series for one in some.exercises]
    by_level = ((level.name, tuple(one for one in counted if not one.seen and one.level == level.name))
                for level in edition.levels)  # fmt: skip
    unseen = tuple((level, exercises) for level, exercises in by_level if exercises)
    return CountedApparatus(edition.apparatus_named(apparatus_id).name, f"/repertoire/{apparatus_id}", series, unseen)


def _series(edition: Edition, series: Series, who: dict[tuple[str, str], set[str]]) -> CountedSeries:
    exercises = tuple(_counted(edition, one, who) for one in edition.in_series(series.id))
    return CountedSeries(series.id, series.name, exercises)


def _counted(edition: Edition, exercise: Exercise, who: dict[tuple[str, str], set[str]]) -> CountedExercise:
    by_kind = {kind: who.get((exercise.id, kind), set()) for kind in COUNTED}
    seen = by_kind["observed"] | by_kind["assisted"] | by_kind["taught"]
    return CountedExercise(
        exercise.name,
        exercise_href(exercise.id),
        level_name(edition, exercise.level),
        len(seen),
        tuple(len(some) for some in by_kind.values()),
    )
