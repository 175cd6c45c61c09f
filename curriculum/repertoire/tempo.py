"""Repetitions and tempo: how often, on which counts, and how many seconds that takes."""

import re
from dataclasses import dataclass
from fractions import Fraction

MOST_TIMES = 200
MOST_COUNTS = 60
_EACH = "side|leg|arm|foot|hand|way"
_REPETITIONS = re.compile(
    rf"(?:(?P<sets>\d{{1,3}}) sets of )?(?P<fewest>\d{{1,3}})(?:\s*[-–]\s*(?P<most>\d{{1,3}}))?"
    rf"(?: (?!each\b|sets\b)(?P<unit>[a-z][a-z-]*))?(?P<each>(?: each (?:{_EACH}))*)"
)
_PHASE = re.compile(r"(\d{1,3})\s+([^\d,()+×;]+)")
_BOUT = re.compile(r"(?:(\d{1,3})\s*[x×]\s*)?\(([^()]+)\)")


@dataclass(frozen=True, slots=True)
class Repetitions:
    """`fewest` to `most` times; `each` names what doubles it ("side", "way"); in `sets` if more than one."""

    fewest: int
    most: int
    each: tuple[str, ...] = ()
    sets: int = 1
    unit: str = ""

    @property
    def turns(self) -> int:
        """How often the number is done over: 2 for each side, 4 for each way on each side, times sets."""
        return self.sets * 2 ** len(self.each)

    @property
    def total(self) -> int:
        """All repetitions together, by the higher number, so that a plan never runs over."""
        return self.most * self.turns

    def __str__(self) -> str:
        number = str(self.fewest) if self.fewest == self.most else f"{self.fewest}-{self.most}"
        sets = f"{self.sets} sets of " if self.sets > 1 else ""
        unit = f" {self.unit}" if self.unit else ""
        return sets + number + unit + "".join(f" each {one}" for one in self.each)


@dataclass(frozen=True, slots=True)
class Phase:
    """A part of one repetition: so many counts of a movement ("3 out")."""

    counts: int
    movement: str


@dataclass(frozen=True, slots=True)
class Bout:
    """Repetitions in the same rhythm; `times` None means every repetition."""

    times: int | None
    phases: tuple[Phase, ...]

    @property
    def counts(self) -> int:
        """Counts of one repetition."""
        return sum(phase.counts for phase in self.phases)


@dataclass(frozen=True, slots=True)
class Tempo:
    """The rhythm of a position: one bout for all repetitions, or several one after another."""

    bouts: tuple[Bout, ...]

    @property
    def times(self) -> int | None:
        """The repetitions that the pattern itself holds, or None where it fits any number."""
        return None if self.bouts[0].times is None else sum(bout.times or 0 for bout in self.bouts)

    @property
    def movements(self) -> tuple[str, ...]:
        """The names of the phases, in order, once each."""
        return tuple(dict.fromkeys(phase.movement for bout in self.bouts for phase in bout.phases))

    def counts(self, repetitions: Repetitions) -> int:
        """All counts of all repetitions."""
        return repetitions.turns * sum(
            bout.counts * (repetitions.most if bout.times is None else bout.times) for bout in self.bouts
        )

    def __str__(self) -> str:
        def phases(bout: Bout) -> str:
            return ", ".join(f"{phase.counts} {phase.movement}" for phase in bout.phases)

        if self.bouts[0].times is None:
            return phases(self.bouts[0])
        return " + ".join(f"{bout.times} × ({phases(bout)})" for bout in self.bouts)


def repetitions_from(text: str) -> Repetitions | None:
    """`10`, `3-5`, `5 each way each leg`, `3 sets of 5`, `10 breaths`; None where it is none of these."""
    found = _REPETITIONS.fullmatch(" ".join(text.split()))
    if not found:
        return None
    fewest, sets = int(found["fewest"]), int(found["sets"] or 1)
    most = int(found["most"] or fewest)
    each = tuple(word for word in found["each"].split() if word != "each")
    if not (1 <= fewest <= most <= MOST_TIMES and 1 <= sets <= 20) or len(set(each)) < len(each):
        return None
    return Repetitions(fewest, most, each, sets, found["unit"] or "")


def tempo_from(text: str) -> Tempo | None:
    """`3 out, 3 in`, or `4 × (3 down, 3 up) + 3 × (3 down, 1 up)`; None where it is neither."""
    text = " ".join(text.split())
    if "(" not in text:
        phases = _phases(text)
        return Tempo((Bout(None, phases),)) if phases else None
    bouts = [_bout(part.strip()) for part in text.split("+")]
    return None if any(bout is None for bout in bouts) else Tempo(tuple(bouts))


def seconds_of(tempo: Tempo, repetitions: Repetitions, beats: int) -> Fraction:
    """Seconds that the counts take at `beats` a minute."""
    return Fraction(tempo.counts(repetitions) * 60, beats)


def _bout(text: str) -> Bout | None:
    found = _BOUT.fullmatch(text)
    times = int(found[1]) if found and found[1] else 0
    phases = _phases(found[2]) if found else ()
    return Bout(times, phases) if 1 <= times <= MOST_TIMES and phases else None


def _phases(text: str) -> tuple[Phase, ...]:
    found = [_PHASE.fullmatch(part.strip()) for part in text.split(",")]
    if not all(found) or not all(1 <= int(one[1]) <= MOST_COUNTS for one in found):
        return ()
    return tuple(Phase(int(one[1]), one[2].strip()) for one in found)
