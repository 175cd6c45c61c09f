"""One exercise as an edition teaches it."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from curriculum.repertoire.set_up import SetUp
from curriculum.repertoire.tempo import Repetitions, Tempo, seconds_of

Family = Literal["flexion", "extension", "side-bend", "rotation", "inversion", "hinge", "support"]
FAMILIES: tuple[Family, ...] = (
    "flexion",
    "extension",
    "side-bend",
    "rotation",
    "inversion",
    "hinge",
    "support",
)
CueKind = Literal["verbal", "tactile", "imagery", "demonstration"]
Weight = Literal["safety", "form", "rhythm"]
WEIGHTS: tuple[Weight, ...] = ("safety", "form", "rhythm")
Lever = Literal["range", "springs", "count", "position", "support", "tempo"]
LEVERS: tuple[Lever, ...] = (
    "range",
    "springs",
    "count",
    "position",
    "support",
    "tempo",
)
BarLock = Literal["foot-lowered", "locks"]
BAR_LOCKS: tuple[BarLock, ...] = ("foot-lowered", "locks")


@dataclass(frozen=True, slots=True)
class Position:
    """One position of an exercise; either `tempo` at `beats` a minute, or `seconds_each` repetition."""

    id: str
    name: str
    repetitions: Repetitions
    tempo: Tempo | None = None
    beats: int = 60
    seconds_each: Fraction | None = None
    body: str = ""

    @property
    def seconds(self) -> Fraction:
        """Seconds of movement, by the higher number of repetitions."""
        if self.tempo is not None:
            return seconds_of(self.tempo, self.repetitions, self.beats)
        return self.repetitions.total * (self.seconds_each or Fraction(0))


@dataclass(frozen=True, slots=True)
class Cue:
    """What a teacher says, touches, likens or shows; `phase` names a movement of the tempo, `answers` a fault's id."""

    kind: CueKind
    text: str
    phase: str = ""
    answers: str = ""

    @property
    def needs_consent(self) -> bool:
        """Touch is used with consent only."""
        return self.kind == "tactile"


@dataclass(frozen=True, slots=True)
class MovementFault:
    """What the teacher sees, why it likely happens, and what mends it; `drill` is the id of a step."""

    id: str
    sees: str
    cause: str
    correction: str
    weight: Weight = "form"
    drill: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """A regression or progression: what changes (`lever`), how, and the ids of the faults that it mends."""

    id: str
    lever: Lever
    text: str
    mends: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Way:
    """A way on to or off the apparatus; `level` "" means for everybody."""

    text: str
    level: str = ""


@dataclass(frozen=True, slots=True)
class Adaptation:
    """What changes for whom and why; `confirm` asks the school to confirm it before it is taught."""

    when: str
    change: str
    why: str = ""
    confirm: bool = False


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution code of the edition on this exercise: `action` says whether to withhold it or to modify it, until
    licensed advice says otherwise; `instead` is the alternative. The sentence that sends on stands with the code."""

    code: str
    action: Literal["withhold", "modify"]
    text: str = ""
    instead: str = ""


@dataclass(frozen=True, slots=True)
class Transition:
    """An authored way into another exercise; `foot_bar` and `level` narrow when it holds ("" is always)."""

    to: str
    seconds: int
    steps: tuple[str, ...]
    foot_bar: str = ""
    level: str = ""
    confirm: bool = False


@dataclass(frozen=True, slots=True)
class Lineage:
    """How another lineage names or does it."""

    lineage: str
    name: str = ""
    differs: str = ""


@dataclass(frozen=True, slots=True)
class Exercise:
    """One exercise. `apparatus`, `series` and `level` are ids of the edition; `place` counts from 1 on its apparatus.

    `confirm` names the fields that the school has still to confirm; `worth` (1 to 9) is how much a lesson wants it.
    """

    id: str
    name: str
    apparatus: str
    series: str
    level: str
    place: int
    families: tuple[Family, ...]
    set_up: SetUp
    positions: tuple[Position, ...]
    spot: bool = False
    spotting: str = ""
    aim: str = ""
    worth: int = 3
    mount: tuple[Way, ...] = ()
    dismount: tuple[Way, ...] = ()
    cues: tuple[Cue, ...] = ()
    faults: tuple[MovementFault, ...] = ()
    regressions: tuple[Step, ...] = ()
    progressions: tuple[Step, ...] = ()
    adaptations: tuple[Adaptation, ...] = ()
    cautions: tuple[Caution, ...] = ()
    transitions: tuple[Transition, ...] = ()
    lineages: tuple[Lineage, ...] = ()
    source: str = ""
    confirm: tuple[str, ...] = ()

    @property
    def seconds(self) -> Fraction:
        """Seconds of movement of all positions."""
        return sum((position.seconds for position in self.positions), Fraction(0))

    @property
    def movements(self) -> tuple[str, ...]:
        """The names of the phases of every position's tempo, once each."""
        found = (name for one in self.positions if one.tempo for name in one.tempo.movements)
        return tuple(dict.fromkeys(found))

    @property
    def in_detail(self) -> bool:
        """Whether there is enough to teach from: a body position, cues, faults and cautions or adaptations."""
        return bool(self.set_up.body and len(self.cues) >= 3 and len(self.faults) >= 2)

    def cues_for(self, fault: str) -> tuple[Cue, ...]:
        """The cues that answer a fault."""
        return tuple(cue for cue in self.cues if cue.answers == fault)

    def steps_for(self, fault: str) -> tuple[Step, ...]:
        """The regressions and progressions that mend a fault."""
        return tuple(step for step in (*self.regressions, *self.progressions) if fault in step.mends)

    def caution(self, code: str) -> Caution | None:
        """This exercise's caution for a code, or None: then the school's list says nothing, so ask."""
        return next((caution for caution in self.cautions if caution.code == code), None)
