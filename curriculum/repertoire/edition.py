"""An edition of the repertoire: exercises in their order, and what they share."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from curriculum.repertoire.exercise import Exercise


@dataclass(frozen=True, slots=True)
class Level:
    """A level, easiest first in an edition; `difficulty` stands for it where tasks are drawn for an exam."""

    id: str
    name: str
    difficulty: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Apparatus:
    """An apparatus; `load` says when it is under load, `at_rest` what to do before anything is changed on it."""

    id: str
    name: str
    load: str = ""
    at_rest: str = ""


@dataclass(frozen=True, slots=True)
class Series:
    """Exercises that belong together; `file` is where they are written."""

    id: str
    name: str
    apparatus: str
    file: str


@dataclass(frozen=True, slots=True)
class CautionKind:
    """A caution code of the school: `withhold` and `instead` hold for it in general; `ask` is the
    sentence that sends the client to a licensed professional."""

    code: str
    name: str
    ask: str
    withhold: str = ""
    instead: str = ""
    stop: str = ""


@dataclass(frozen=True, slots=True)
class SafetyNotice:
    """A notice that reaches every edition at once; `exercise` "" means all."""

    id: str
    issued: date
    text: str
    exercise: str = ""


@dataclass(frozen=True, slots=True)
class ChangeSeconds:
    """The school's own seconds for each change of equipment; `spring` is for one spring,
    `all_springs` for putting every one on so that nothing moves, and for taking them back to a number."""

    same: int
    at_rest: int
    spring: int
    all_springs: int
    attachment: int
    foot_bar: int
    headrest: int
    straps_hands: int
    straps_feet: int
    box_on: int
    box_turn: int
    box_off: int
    board: int
    stopper: int
    gear: int
    barrel_gap: int
    hang: int
    safety_strap: int
    posture: int
    mount: int
    dismount: int


@dataclass(frozen=True, slots=True)
class Edition:
    """An immutable edition. `exercises` stand in order: apparatus by apparatus, series by series.

    `frame` is the sentence that goes with every caution; `stop` names the signs on which a lesson stops;
    `nothing_listed` is said where no caution of the list applies.
    """

    id: str
    title: str
    owner: str
    levels: tuple[Level, ...]
    apparatus: tuple[Apparatus, ...]
    series: tuple[Series, ...]
    cautions: tuple[CautionKind, ...]
    change_seconds: ChangeSeconds
    exercises: tuple[Exercise, ...]
    frame: str
    stop: str
    nothing_listed: str
    published: date | None = None
    sources: tuple[str, ...] = ()
    notices: tuple[SafetyNotice, ...] = ()

    def exercise(self, id: str) -> Exercise | None:
        """The exercise with this id, or None."""
        return next((one for one in self.exercises if one.id == id), None)

    def on(self, apparatus: str) -> tuple[Exercise, ...]:
        """The exercises of one apparatus, in order."""
        return tuple(one for one in self.exercises if one.apparatus == apparatus)

    def in_series(self, series: str) -> tuple[Exercise, ...]:
        """The exercises of one series, in order."""
        return tuple(one for one in self.exercises if one.series == series)

    def series_of(self, apparatus: str) -> tuple[Series, ...]:
        """The series of one apparatus, in order."""
        return tuple(one for one in self.series if one.apparatus == apparatus)

    def level_rank(self, level: str) -> int:
        """0 for the easiest level; raises ValueError for a level the edition doesn't have."""
        return tuple(one.id for one in self.levels).index(level)

    def caution_kind(self, code: str) -> CautionKind | None:
        """What the edition says of a caution code, or None."""
        return next((one for one in self.cautions if one.code == code), None)

    def apparatus_named(self, id: str) -> Apparatus | None:
        """The apparatus with this id, or None."""
        return next((one for one in self.apparatus if one.id == id), None)

    def notices_for(self, exercise: str) -> tuple[SafetyNotice, ...]:
        """Safety notices for an exercise, those for all included."""
        return tuple(one for one in self.notices if one.exercise in ("", exercise))
