"""What is there for one trainee on one day, as readiness needs it."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

PracticalState = Literal["booked", "marking", "deciding", "passed", "referred", "failed"]


@dataclass(frozen=True, slots=True)
class RuleLine:
    """One rule of the requirement set; amounts in minutes, or in a count of hosts, clients, weeks and the like."""

    id: str
    title: str
    unit: Literal["minutes", "count"]
    needed: int
    met: int
    waiting: int
    short: int


@dataclass(frozen=True, slots=True)
class PlanLine:
    """A line of the least that is still to do: `in` one category, or `anywhere` among several."""

    code: Literal["in", "anywhere"]
    titles: tuple[str, ...]
    minutes: int


@dataclass(frozen=True, slots=True)
class HoursEvidence:
    """A trainee's standing in hours. `further_minutes` is the least still to do, waiting minutes not counted in.

    `pace` is the trainee's own minutes a week, None where there is too little to go on. Before `earliest_end` the
    training is too short for the certificate.
    """

    complete: bool
    further_minutes: int
    waiting_minutes: int
    credited_minutes: int
    enrolled: date | None = None
    window_end: date | None = None
    rules: tuple[RuleLine, ...] = ()
    plan: tuple[PlanLine, ...] = ()
    pace: int | None = None
    earliest_end: date | None = None

    @property
    def needed_minutes(self) -> int:
        """Credited and still to do together: the length of the way."""
        return self.credited_minutes + self.further_minutes


@dataclass(frozen=True, slots=True)
class PracticalEvidence:
    """The newest state of one practical; `on` is the exam's day, or the day of the decision once decided.

    `parts` names what a referral asks for again, `again_from` the first day for it.
    """

    practical: str
    state: PracticalState
    on: date | None = None
    parts: tuple[str, ...] = ()
    again_from: date | None = None
    attempts_left: int = 1


@dataclass(frozen=True, slots=True)
class DocumentEvidence:
    """One document handed in; valid from day to day, both included; `ends` None never ends."""

    document: str
    checked: bool
    starts: date | None = None
    ends: date | None = None

    def holds(self, day: date) -> bool:
        """Whether it is valid on that day."""
        return (self.starts is None or self.starts <= day) and (self.ends is None or day <= self.ends)


@dataclass(frozen=True, slots=True)
class ModuleEvidence:
    """One taught module: completed on a day, or booked for one, or attended and not yet registered."""

    module: str
    state: Literal["booked", "attended", "completed"]
    on: date | None = None


@dataclass(frozen=True, slots=True)
class Evidence:
    """Everything there is; `hours` maps requirement sets to standings."""

    hours: tuple[tuple[str, HoursEvidence], ...] = ()
    practicals: tuple[PracticalEvidence, ...] = ()
    documents: tuple[DocumentEvidence, ...] = ()
    modules: tuple[ModuleEvidence, ...] = ()
