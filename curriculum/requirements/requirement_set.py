"""The requirement set of a programme: categories with floors, caps and variety, totals, choices and gates.

Minutes are exact; an `Accepts` maps each field to the values of which one must be there.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from curriculum.requirements.amounts import Amount

PROOFS = ("signed_off", "attested", "registered", "accepted")
TIMES = ("day", "week", "session")
COLUMNS = ("trainee", "id", "date", "minutes", "activity", "state")
Accepts = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Window:
    """The time a trainee has, in calendar months; None where the set says nothing."""

    months: int | None = None
    least_months: int | None = None
    extension_months: int | None = None
    lapses_after_months: int | None = None


@dataclass(frozen=True, slots=True)
class Signing:
    """What bounds a host's signature; None where the set says nothing.

    `within_days` of a session's day; `at_once` the most of one trainee signed together; `host_day` the most that a host
    signs of one day over all trainees, a lesson with several of them counted once.
    """

    within_days: int | None = None
    at_once: Fraction | None = None
    host_day: Fraction | None = None


@dataclass(frozen=True, slots=True)
class ModuleRule:
    """Of a taught module at most so many days may be missed, and each is made up."""

    module: str
    missed_at_most: int


@dataclass(frozen=True, slots=True)
class SessionLine:
    """A session of `least` to `most` minutes counts as `counts_as` minutes."""

    least: Fraction
    most: Fraction | None
    counts_as: Fraction


@dataclass(frozen=True, slots=True)
class Weight:
    """Entries that match earn this part of their minutes."""

    accepts: Accepts
    part: Fraction


@dataclass(frozen=True, slots=True)
class Credit:
    """How an entry's minutes become credit: session lines, then rounding down, then a weight."""

    round_down_to: Fraction | None = None
    sessions: tuple[SessionLine, ...] = ()
    weights: tuple[Weight, ...] = ()


@dataclass(frozen=True, slots=True)
class Floor:
    """At least so much of what matches, inside a category."""

    id: str
    accepts: Accepts
    at_least: Amount
    title: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Cap:
    """At most so much of what matches; `per` a field: for each of its values."""

    id: str
    at_most: Amount
    accepts: Accepts = field(default_factory=dict)
    per: str = ""
    title: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Variety:
    """At least so many distinct values of the field `of`, each with `each` minutes of credit."""

    id: str
    of: str
    at_least: int
    each: Amount = Fraction(1)
    accepts: Accepts = field(default_factory=dict)
    title: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Category:
    """Where minutes are credited; one minute goes to at most one category."""

    id: str
    accepts: Accepts
    at_least: Fraction
    unit: int = 60
    counts: tuple[str, ...] = ("signed_off",)
    at_most: Amount | None = None
    of_which: tuple[Floor, ...] = ()
    limits: tuple[Cap, ...] = ()
    variety: tuple[Variety, ...] = ()
    credit: Credit = Credit()
    title: str = ""
    line: int | None = None

    @property
    def name(self) -> str:
        return self.title or self.id


@dataclass(frozen=True, slots=True)
class Total:
    """At least so much over several categories; `of` empty means all."""

    id: str
    of: tuple[str, ...]
    at_least: Fraction
    accepts: Accepts = field(default_factory=dict)
    title: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Choice:
    """The floors of at least so many of these categories or rules must hold."""

    id: str
    at_least: int
    among: tuple[str, ...]
    title: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Condition:
    """One condition of a gate: minutes (`category` an id, or "" for all), or a proof of `kind`."""

    kind: str
    name: str = ""
    at_least: Fraction = Fraction(0)
    accepts: Accepts = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Gate:
    """Entries of the category dated before the gate opens earn nothing."""

    id: str
    category: str
    when: tuple[Condition, ...]
    title: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class RequirementSet:
    """Everything a programme asks for in hours."""

    title: str
    categories: tuple[Category, ...]
    edition: str = ""
    unit: int = 60
    fields: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    window: Window = Window()
    signing: Signing = Signing()
    modules: tuple[ModuleRule, ...] = ()
    totals: tuple[Total, ...] = ()
    limits: tuple[Cap, ...] = ()
    choose: tuple[Choice, ...] = ()
    gates: tuple[Gate, ...] = ()

    def category(self, id: str) -> Category:
        return next(one for one in self.categories if one.id == id)

    def covered(self, total: Total) -> tuple[str, ...]:
        """The ids of the categories that a total sums."""
        return total.of or tuple(one.id for one in self.categories)

    def rules(self) -> Iterator[object]:
        """Everything that has an id besides the categories, in the order of the set."""
        for one in self.categories:
            yield from (*one.of_which, *one.limits, *one.variety)
        yield from (*self.totals, *self.limits, *self.choose, *self.gates)
