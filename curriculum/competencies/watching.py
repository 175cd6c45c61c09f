"""What to watch next: the exercises of a trainee's level that hold back the most."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum.competencies.evidence import Coverage
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import Exercise

SEEN_OF_A_LEVEL = Fraction(3, 4)
MOST_SHOWN = 5
SEEN = ("observed", "assisted", "taught", "assessed")


@dataclass(frozen=True, slots=True)
class WatchNext:
    """An exercise to watch, and how many exercises of the level it holds back, itself among them."""

    exercise: Exercise
    holds_back: int


def own_level(edition: Edition, coverage: Mapping[str, Coverage]) -> str:
    """The easiest level of which less than three quarters of the exercises are seen; the hardest where none is."""
    for level in edition.levels:
        exercises = [one for one in edition.exercises if one.level == level.id]
        seen = sum(is_seen(coverage[one.id]) for one in exercises)
        if exercises and Fraction(seen, len(exercises)) < SEEN_OF_A_LEVEL:
            return level.id
    return edition.levels[-1].id


def watch_next(edition: Edition, coverage: Mapping[str, Coverage], most: int = MOST_SHOWN) -> tuple[WatchNext, ...]:
    """What to watch next, the most pressing first; needs the edition and one's own coverage, nothing else.

    Only exercises of one's own level (`own_level`) or easier are looked at. An unseen exercise holds back itself and the
    unseen ones after it in the order of its apparatus, up to the next that is seen: a lesson is taught in that order, so
    who has not seen the first can't follow the rest. What waits for a signature holds nothing back. One exercise a series;
    equals by how much a lesson wants them (`worth`), then in the order of the edition.
    """
    rank = edition.level_rank(own_level(edition, coverage))
    found = []
    for apparatus in edition.apparatus:
        order = [one for one in edition.on(apparatus.id) if edition.level_rank(one.level) <= rank]
        found += _stretches(order, coverage)
    found.sort(key=lambda one: (-one.holds_back, -one.exercise.worth))
    kept = {one.exercise.series: one for one in reversed(found)}
    return tuple(one for one in found if kept[one.exercise.series] is one)[:most]


def is_seen(coverage: Coverage) -> bool:
    """Whether somebody was seen to teach it, or one has taught it: observed, assisted, taught or assessed."""
    return any(state.state == "covered" for covered, state in coverage.activities if covered in SEEN)


def _stretches(order: Iterable[Exercise], coverage: Mapping[str, Coverage]) -> list[WatchNext]:
    found, run = [], 0
    for one in reversed(list(order)):
        run = 0 if _is_held(coverage[one.id]) else run + 1
        if run:
            found.append(WatchNext(one, run))
    return found[::-1]


def _is_held(coverage: Coverage) -> bool:
    waits = any(state.state == "waiting" for covered, state in coverage.activities if covered in SEEN)
    return waits or is_seen(coverage)
