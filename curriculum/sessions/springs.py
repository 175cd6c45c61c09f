"""Springs measured with a scale: what each one pulls over a travel, and which readings can't be used any more."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from curriculum.faults import N_, Fault


@dataclass(frozen=True, slots=True)
class Line:
    """A load in newtons that grows with travel in metres: pre-tension + stiffness (N/m) × travel."""

    pretension: float
    stiffness: float

    def at(self, travel: float) -> float:
        """Newtons at a travel."""
        return self.pretension + self.stiffness * travel

    def __add__(self, other: "Line") -> "Line":
        """Springs side by side add up."""
        return Line(self.pretension + other.pretension, self.stiffness + other.stiffness)

    def stretched(self, metres: float) -> "Line":
        """The same spring hooked in so much further (a gear)."""
        return Line(self.at(metres), self.stiffness)


@dataclass(frozen=True, slots=True)
class Reading:
    """A scale's reading: `newtons` at `travel` metres from where the spring starts."""

    travel: float
    newtons: float


@dataclass(frozen=True, slots=True)
class Spring:
    """One spring by the school's own `label`, with its readings and the day they were taken."""

    label: str
    readings: tuple[Reading, ...]
    calibrated: date
    worn: bool = False

    @property
    def line(self) -> Line:
        """The straight line through two readings, or the least-squares line through more."""
        return least_squares(self.readings)

    @property
    def measured(self) -> tuple[float, float]:
        """The shortest and the longest travel that was measured."""
        travels = [one.travel for one in self.readings]
        return min(travels), max(travels)


@dataclass(frozen=True, slots=True)
class Machine:
    """A machine's springs. `settings` says which labels a number of springs means ("4 springs"); `fixing` lists sets
    that fix the carriage; `gears` maps a gear's name to the metres that it stretches every spring beforehand;
    readings older than `valid_days` are refused; sets of more than `most_springs` are never used."""

    name: str
    springs: tuple[Spring, ...]
    settings: tuple[tuple[int, tuple[str, ...]], ...] = ()
    fixing: tuple[frozenset[str], ...] = ()
    gears: tuple[tuple[str, float], ...] = ()
    valid_days: int = 365
    most_springs: int | None = None
    line: int | None = None

    def spring(self, label: str) -> Spring | None:
        """The spring with a label, or None."""
        return next((one for one in self.springs if one.label == label), None)

    def fixes(self, labels: Iterable[str]) -> bool:
        """Whether these springs, or a part of them, fix the carriage."""
        chosen = set(labels)
        return any(fixing <= chosen for fixing in self.fixing)


def least_squares(readings: tuple[Reading, ...]) -> Line:
    """The line with the least sum of squared differences; at least two different travels are needed."""
    number = len(readings)
    mean_travel = sum(one.travel for one in readings) / number
    mean_load = sum(one.newtons for one in readings) / number
    spread = sum((one.travel - mean_travel) ** 2 for one in readings)
    together = sum((one.travel - mean_travel) * (one.newtons - mean_load) for one in readings)
    stiffness = together / spread
    return Line(mean_load - stiffness * mean_travel, stiffness)


def refusal(machine: Machine, spring: Spring, today: date) -> Fault | None:
    """Why a spring's readings are not to be used today, or None."""
    values = {"machine": machine.name, "label": spring.label, "day": spring.calibrated.isoformat()}
    if spring.worn:
        return Fault(
            "worn", N_("{machine}: spring {label} is marked worn; replace and measure it"), values, line=machine.line
        )
    if spring.calibrated > today:
        return Fault(
            "future",
            N_("{machine}: spring {label} was measured on {day}, which is still to come"),
            values,
            line=machine.line,
        )
    if (today - spring.calibrated).days > machine.valid_days:
        sentence = N_("{machine}: spring {label} was measured on {day}, more than {days} days ago; measure it again")
        return Fault("stale", sentence, {**values, "days": machine.valid_days}, line=machine.line)
    return None
