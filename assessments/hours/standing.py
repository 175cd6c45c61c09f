"""Where a trainee stands in hours, as one frozen value."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Literal

REASONS = (
    "not_sent", "waiting", "sent_back", "withdrawn", "proof_not_accepted", "no_category", "before_enrolment",
    "after_window", "lapsed", "after_as_of", "before_gate", "rounded_down", "weighted", "day_cap", "week_cap",
    "session_cap", "value_cap", "share_cap", "part_cap", "category_full", "overall_cap", "other_rules",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class CategoryStanding:
    """Minutes needed, credited, waiting, and the least still to do here in any optimal plan."""

    id: str
    title: str
    needed: int
    credited: int
    waiting: int
    further_at_least: int


@dataclass(frozen=True, slots=True)
class RuleStanding:
    """One floor: `needed`, `met` and `short` in minutes, or in a count of values or members."""

    id: str
    title: str
    kind: Literal["of_which", "variety", "total", "choose"]
    category: str
    needed: int
    met: int
    short: int
    waiting: int = 0


@dataclass(frozen=True, slots=True)
class Given:
    """Whole minutes of an entry credited to a category."""

    entry: str
    category: str
    minutes: int


@dataclass(frozen=True, slots=True)
class SetAside:
    """Logged minutes that earn nothing, the code of the reason, and the rule or category behind it."""

    entry: str
    minutes: int
    reason: str
    rule: str = ""


@dataclass(frozen=True, slots=True)
class Spell:
    """What one rule makes of the time still to do: so many days or calendar weeks (`number`, `per`), and the last day
    on which they can begin to be over by the window's end.

    `why` is "caps" (`minutes` in `category`, "" for all together) or "variety" (different days or weeks are asked for).
    """

    why: str
    rule: str
    category: str
    per: str
    number: int
    begin: date
    minutes: int


@dataclass(frozen=True, slots=True)
class Pace:
    """Minutes a week needed until the window's end, the most a week the caps allow, and why it can't be done.

    It can't be done where the time is `over`, or where a rule takes too long; `slowest` is the rule that has to begin
    first, None where none binds.
    """

    end: date | None
    days_left: int | None
    needed_a_week: int | None
    most_a_week: int | None
    over: bool = False
    too_long: tuple[Spell, ...] = ()
    slowest: Spell | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """The least further time by category, and the rest, that may be done in any of `anywhere`."""

    steps: tuple[tuple[str, int], ...]
    rest: int
    anywhere: tuple[str, ...]
    pace: Pace


@dataclass(frozen=True, slots=True)
class Standing:
    """Everything a page or the command line shows of a trainee's hours; minutes are whole.

    `earliest_end` is the first day on which the training may be complete, None where the set asks for no least time.
    """

    as_of: date
    enrolled: date | None
    window_applied: bool
    further_minutes: int
    credited_minutes: int
    waiting_minutes: int
    categories: tuple[CategoryStanding, ...]
    rules: tuple[RuleStanding, ...]
    given: tuple[Given, ...]
    set_aside: tuple[SetAside, ...]
    plan: Plan
    earliest_end: date | None = None

    @property
    def complete(self) -> bool:
        return self.further_minutes == 0


# Held optima carry a relative slack of 1e-9, and the solver misses a row by up to 1e-7: together far below this.
NOISE = 1e-3


def up(value: float | Fraction) -> int:
    """Rounded up to whole minutes, past the solver's noise."""
    return max(0, -int(-(value - NOISE) // 1))


def down(value: float | Fraction) -> int:
    """Rounded down to whole minutes, past the solver's noise."""
    return max(0, int((value + NOISE) // 1))
