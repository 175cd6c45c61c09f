"""An entry: one part of a session as logged, with its session's fields, and the facts about its trainee."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache
from typing import Literal

from curriculum.requirements.requirement_set import Accepts

State = Literal[
    "not_sent",
    "waiting",
    "signed_off",
    "sent_back",
    "withdrawn",
    "attested",
    "registered",
    "accepted",
]
STATES: tuple[State, ...] = State.__args__


@lru_cache(maxsize=16384)
def _day(day: date) -> tuple[str]:
    return (day.isoformat(),)


@lru_cache(maxsize=16384)
def _week(day: date) -> tuple[str]:
    year, week, _ = day.isocalendar()
    return (f"{year}-W{week:02}",)


@dataclass(frozen=True, slots=True)
class Entry:
    """`minutes` are whole; `fields` maps a field (activity, host, …) to the values it holds, none if empty."""

    id: str
    date: date
    minutes: int
    state: State
    fields: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    line: int | None = field(default=None, compare=False)

    def values(self, name: str) -> tuple[str, ...]:
        """The values of a field; `day` and `week` (ISO) follow from the date.

        An entry without a session has none: an empty value binds no cap and counts in no variety, `session` included.
        """
        if name == "day":
            return _day(self.date)
        if name == "week":
            return _week(self.date)
        return self.fields.get(name, ())

    def matches(self, accepts: Accepts) -> bool:
        """Every field asked for holds one of the values asked for."""
        for name, asked in accepts.items():
            for value in self.values(name):
                if value in asked:
                    break
            else:
                return False
        return True


@dataclass(frozen=True, slots=True)
class Span:
    """From a day to a day, both counted; open where `to` is None."""

    start: date
    end: date | None = None


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of a trainee besides the log, with its dates."""

    practicals: Mapping[str, date] = field(default_factory=dict)
    modules: Mapping[str, date] = field(default_factory=dict)
    documents: Mapping[str, Span] = field(default_factory=dict)
    extensions: tuple[date, ...] = ()
    leave: tuple[Span, ...] = ()
