"""An edition's exercises as tasks for drawing exam lists."""

from dataclasses import dataclass
from fractions import Fraction

from curriculum.repertoire.edition import Edition


@dataclass(frozen=True, slots=True)
class BankTask:
    """One task: `difficulty` is its level's in the edition, `minutes` its movement times the factor, exact."""

    exercise: str
    difficulty: Fraction
    minutes: Fraction
    apparatus: str
    series: str
    level: str
    family: str
    place: int
    spot: bool


def exam_bank(edition: Edition, factor: Fraction = Fraction(1)) -> tuple[BankTask, ...]:
    """Every exercise of the edition as a task, in order; `family` is the first of its movement families."""
    difficulty = {level.id: level.difficulty for level in edition.levels}
    return tuple(
        BankTask(
            one.id,
            difficulty[one.level],
            one.seconds * factor / 60,
            one.apparatus,
            one.series,
            one.level,
            one.families[0],
            one.place,
            one.spot,
        )
        for one in edition.exercises
    )
