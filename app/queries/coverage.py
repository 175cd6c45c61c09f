"""What a trainee has seen, practised, assisted with, taught and been assessed in: the map, and one exercise of it."""

from collections.abc import Iterator
from dataclasses import dataclass

from app.files.repertoire import edition_from_documents
from app.queries.exam_facts import practical_of, sent_sheets, tasks_of
from app.queries.feedback import evidence_given, taught_in
from app.queries.repertoire import exercise_href, level_name
from app.storage.enrolments import Enrolment
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording.coverage import COVERED, activity_text, in_short, strand_in_short, strand_name, strand_text
from app.wording.languages import Language
from assessments.practicals.deciding import Outcome
from assessments.practicals.strands import strand_scores
from curriculum.competencies.evidence import COVERED as KINDS
from curriculum.competencies.evidence import (
    Coverage,
    Evidence,
    NotedSession,
    ScoredPart,
    coverage_of,
    evidence_of_practical,
    evidence_of_session,
)
from curriculum.competencies.statements import STRAND_NAMES, STRANDS
from curriculum.competencies.watching import is_seen, own_level, watch_next
from curriculum.repertoire.edition import Edition, Series
from curriculum.repertoire.exercise import Exercise

NOT_SCORED = (Outcome.VOID, Outcome.NOT_COMPLETED)


@dataclass(frozen=True, slots=True)
class Stretch:
    """One exercise on the line of its series; `marks` are what is covered, `waits` what only waits;
    `strands` is empty where no strand has any ground yet."""

    name: str
    href: str
    marks: frozenset[str]
    waits: frozenset[str]
    text: str
    cells: tuple[str, ...]
    strands: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeriesCoverage:
    """One series as a line of its exercises in order."""

    id: str
    name: str
    seen: int
    exercises: tuple[Stretch, ...]


@dataclass(frozen=True, slots=True)
class ApparatusCoverage:
    """The series of one apparatus; its seen exercises of all."""

    name: str
    href: str
    seen: int
    number: int
    series: tuple[SeriesCoverage, ...]


@dataclass(frozen=True, slots=True)
class ToWatch:
    """An exercise to watch next, and how many it holds back."""

    name: str
    href: str
    where: str
    holds_back: int


@dataclass(frozen=True, slots=True)
class CoverageOverview:
    """The whole map of one trainee."""

    edition: str
    seen: int
    number: int
    level: str
    watch: tuple[ToWatch, ...]
    apparatus: tuple[ApparatusCoverage, ...]
    columns: tuple[str, ...]
    strands: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OwnCoverage:
    """One exercise's coverage: (activity, text) and (strand, text) pairs."""

    activities: tuple[tuple[str, str], ...]
    strands: tuple[tuple[str, str], ...]
    is_open: bool


def coverage_overview(work: Work, enrolment: Enrolment, language: Language) -> CoverageOverview:
    """The map of one trainee, in the edition that is theirs."""
    edition = edition_from_documents(work.editions.by_id(enrolment.repertoire_id).documents)
    found = coverage_by_exercise(work, enrolment, edition)
    apparatus = tuple(_apparatus(edition, one.id, found, language) for one in edition.apparatus if edition.on(one.id))
    return CoverageOverview(
        edition.title,
        sum(one.seen for one in apparatus),
        len(edition.exercises),
        level_name(edition, own_level(edition, found)),
        tuple(_to_watch(edition, one.exercise, one.holds_back) for one in watch_next(edition, found)),
        apparatus,
        tuple(language(COVERED[kind]) for kind in KINDS),
        tuple(language(STRAND_NAMES[strand]) for strand in STRANDS),
    )


def own_coverage(work: Work, enrolment: Enrolment, edition: Edition, exercise: str, language: Language) -> OwnCoverage:
    """What stands beside one exercise for the trainee who reads it."""
    shown = coverage_of(exercise, evidence_of(work, enrolment, edition))
    return OwnCoverage(
        tuple((language(COVERED[kind]), activity_text(one, language)) for kind, one in shown.activities),
        tuple((strand_name(one, language), strand_text(one, language)) for one in shown.strands),
        all(one.state == "open" for _, one in shown.activities) and all(one.ground == "none" for one in shown.strands),
    )


def coverage_by_exercise(work: Work, enrolment: Enrolment, edition: Edition) -> dict[str, Coverage]:
    """The coverage of every exercise of an edition."""
    by_exercise: dict[str, list[Evidence]] = {}
    for one in evidence_of(work, enrolment, edition):
        by_exercise.setdefault(one.exercise, []).append(one)
    return {one.id: coverage_of(one.id, by_exercise.get(one.id, ())) for one in edition.exercises}


def evidence_of(work: Work, enrolment: Enrolment, edition: Edition) -> list[Evidence]:
    """Every piece of evidence of one enrolment: notes of sessions, decided practicals, feedback of supervising teachers."""
    following = {}
    for apparatus in edition.apparatus:
        order = edition.on(apparatus.id)
        following |= {one.id: after.id for one, after in zip(order, order[1:], strict=False)}
    sessions = {one.id: one for one in work.ledger.of_enrolment(enrolment.id)}
    hosts = {host.id: host.name for host in work.hosts.all()}
    found, taught = [], {}
    for note in work.notes.of_enrolment(enrolment.id):
        session, taught[note.session_id] = sessions[note.session_id], taught_in(note.lines)
        activities = tuple(part.activity for part in session.parts)
        noted = NotedSession(session.day, session.state, activities, note.lines, hosts.get(session.host, ""))
        found += evidence_of_session(noted, lambda one: following.get(one, ""))
    for exam in work.exams.of_enrolment(enrolment.id):
        found += evidence_of_practical(_scored_parts(work, exam))
    found += evidence_given(work, enrolment, sessions, taught)
    return found


def _scored_parts(work: Work, exam: Exam) -> Iterator[ScoredPart]:
    """The parts of an exam once it is decided; before that nobody but the examiners knows anything of it."""
    decisions = work.exams.decisions(exam.id)
    if not decisions or decisions[-1].outcome in NOT_SCORED:
        return
    sheets, tasks = sent_sheets(work, exam.id), tasks_of(work, exam)
    names = work.people.names()
    examiners = ", ".join(names[one] for one in sorted({sheet.examiner for sheet in sheets}))
    for part, strands in strand_scores(practical_of(work, exam), sheets).items():
        yield ScoredPart(exam.day, examiners, tuple(tasks.get(part, ())), strands)


def _apparatus(
    edition: Edition, apparatus_id: str, found: dict[str, Coverage], language: Language
) -> ApparatusCoverage:
    series = tuple(_series(edition, one, found, language) for one in edition.series_of(apparatus_id))
    return ApparatusCoverage(
        edition.apparatus_named(apparatus_id).name,
        f"/repertoire/{apparatus_id}",
        sum(one.seen for one in series),
        len(edition.on(apparatus_id)),
        tuple(one for one in series if one.exercises),
    )


def _series(edition: Edition, series: Series, found: dict[str, Coverage], language: Language) -> SeriesCoverage:
    exercises = edition.in_series(series.id)
    seen = sum(is_seen(found[one.id]) for one in exercises)
    stretches = tuple(_stretch(one, found[one.id], language) for one in exercises)
    return SeriesCoverage(series.id, series.name, seen, stretches)


def _stretch(exercise: Exercise, coverage: Coverage, language: Language) -> Stretch:
    states = [(kind, one.state) for kind, one in coverage.activities]
    grounded = any(one.ground != "none" for one in coverage.strands)
    return Stretch(
        exercise.name,
        exercise_href(exercise.id),
        frozenset(kind for kind, state in states if state == "covered"),
        frozenset(kind for kind, state in states if state == "waiting"),
        in_short(coverage, language),
        tuple(activity_text(one, language) for _, one in coverage.activities),
        tuple(strand_in_short(one, language) for one in coverage.strands) if grounded else (),
    )


def _to_watch(edition: Edition, exercise: Exercise, holds_back: int) -> ToWatch:
    series = next(one.name for one in edition.series if one.id == exercise.series)
    apparatus = edition.apparatus_named(exercise.apparatus).name
    return ToWatch(exercise.name, exercise_href(exercise.id), f"{apparatus}, {series}", holds_back)
