"""Fault spotting as a director reads it: groups without names, and only where nobody can be made out."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from app.permissions import EXAMINER, TRAINEE
from app.queries.season_lines import Stretch
from app.queries.spotting_attempts import Finished, finished, lessons_of
from app.storage.work import Work
from app.wording import spotting as words
from app.wording.languages import Language
from app.wording.repertoire import WEIGHTS
from assessments.measurement.statistic import Statistic
from assessments.spotting.lesson import SpottingLesson
from assessments.spotting.scoring import Counts, eye, pooled_sensitivity
from curriculum.faults import N_

# With fewer people behind a figure somebody could be made out: common practice, a judgement.
LEAST_PEOPLE = 5
MOST_MOMENTS = 8
# The right end is near perfect.
LOWEST, HIGHEST = -1.0, 3.0
GROUPS: Mapping[str, str] = {TRAINEE: words.TRAINEES, EXAMINER: words.EXAMINERS}
Row = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SpottingGroup:
    """One group from the first times through; only lessons that `LEAST_PEOPLE` have been through."""

    title: str
    people: int
    sentences: tuple[str, ...] = ()
    lessons: tuple[Stretch, ...] = ()
    kinds: tuple[Row, ...] = ()
    moments: tuple[Row, ...] = ()


@dataclass(frozen=True, slots=True)
class SpottingGroups:
    """The groups, and examiners by name as far as the editions they spotted in said so."""

    groups: tuple[SpottingGroup, ...]
    named: tuple[Row, ...]
    least: int = LEAST_PEOPLE
    middle: float = -LOWEST / (HIGHEST - LOWEST)


def spotting_groups(work: Work, language: Language) -> SpottingGroups:
    """Trainees and examiners, those who have left not among them."""
    firsts, gone = [one for one in finished(work, work.spotting.all()) if one.first], work.people.gone()
    groups = []
    for role, title in GROUPS.items():
        members = {one.id for one in work.people.with_role(role)} - gone
        own = [one for one in firsts if one.known.attempt.person_id in members]
        groups.append(_group(language(title), own, language))
    examiners = {one.id: one.name for one in work.people.with_role(EXAMINER) if one.id not in gone}
    return SpottingGroups(tuple(groups), _named(work, firsts, examiners, language))


def _group(title: str, firsts: list[Finished], language: Language) -> SpottingGroup:
    by_lesson: dict[str, list[Finished]] = defaultdict(list)
    for one in firsts:
        by_lesson[one.lesson.id].append(one)
    enough = [own for own in by_lesson.values() if len(own) >= LEAST_PEOPLE]
    if not enough:
        return SpottingGroup(title, len(_by_person(firsts)))
    # Nothing but these lessons, or what few people said could be had by taking the lessons from the whole.
    firsts = [one for own in enough for one in own]
    people = _by_person(firsts)
    sentences = words.group_sentences(sum(people.values(), Counts()), pooled_sensitivity(people.values()), language)
    return SpottingGroup(
        title, len(people), sentences, tuple(_stretch(own, language) for own in enough), _kinds(firsts, language),
        _moments(enough, language),
    )  # fmt: skip


def _by_person(firsts: list[Finished]) -> dict[str, Counts]:
    found: dict[str, Counts] = {}
    for one in firsts:
        person = one.known.attempt.person_id
        found[person] = found.get(person, Counts()) + one.counts
    return found


def _stretch(own: list[Finished], language: Language) -> Stretch:
    """One lesson, everybody who has been through it together."""
    typical = pooled_sensitivity(one.counts for one in own)
    hits, planted, alarms, sound = sum((one.counts for one in own), Counts()).row
    figure, title = words.figure_text(typical, language), own[0].lesson.title
    cells = (
        title, language.figure(len(own)), words.of_all(hits, planted, language), words.of_all(alarms, sound, language),
        figure,
    )  # fmt: skip
    at, low, high = (_place(value) for value in (typical.estimate, typical.low, typical.high))
    return Stretch(title, figure, low, high, at, cells=cells)


def _place(value: float | None) -> float | None:
    return None if value is None else (min(max(value, LOWEST), HIGHEST) - LOWEST) / (HIGHEST - LOWEST)


def _kinds(firsts: list[Finished], language: Language) -> tuple[Row, ...]:
    """How many planted faults of each kind were found."""
    found, planted = dict.fromkeys(WEIGHTS, 0), dict.fromkeys(WEIGHTS, 0)
    for one in firsts:
        for said in one.known.answers:
            fault = one.lesson.moment(said.moment).fault
            if fault is not None:
                planted[fault.weight] += 1
                found[fault.weight] += said.wrong
    return tuple(
        (language(title), words.of_all(found[kind], planted[kind], language)) for kind, title in WEIGHTS.items()
    )


def _moments(enough: list[list[Finished]], language: Language) -> tuple[Row, ...]:
    """The moments that most got wrong, the hardest first."""
    hardest = []
    for own in enough:
        lesson: SpottingLesson = own[-1].lesson
        for moment in lesson.moments:
            said = [answer.wrong for one in own for answer in one.known.answers if answer.moment == moment.id]
            right = said.count(moment.is_faulty)
            if said and right < len(said):
                kind = language(WEIGHTS[moment.fault.weight]) if moment.fault else language(N_("Sound"))
                cells = (moment.client, lesson.title, kind, words.of_all(right, len(said), language))
                hardest.append((right / len(said), lesson.id, moment.id, cells))
    return tuple(cells for *_, cells in sorted(hardest)[:MOST_MOMENTS])


def _named(work: Work, firsts: list[Finished], examiners: Mapping[str, str], language: Language) -> tuple[Row, ...]:
    """Examiners by name, only from attempts begun in an edition that told them so."""
    open_ones = [one for one in firsts if one.known.attempt.person_id in examiners]
    people = _by_person([one for one in open_ones if lessons_of(work, one.known.attempt).examiners == "each"])
    rows = []
    for person, counts in sorted(people.items(), key=lambda one: examiners[one[0]]):
        found, (hits, planted, alarms, sound) = eye(counts), counts.row
        shown: tuple[Statistic, ...] = (found.d_prime, found.criterion)
        rows.append(
            (
                examiners[person], words.of_all(hits, planted, language), words.of_all(alarms, sound, language),
                *(words.figure_text(one, language) for one in shown),
            )
        )  # fmt: skip
    return tuple(rows)
