"""What a session would earn, said before it is done."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from assessments.hours.assessing import NO_FACTS, assess
from assessments.hours.entry import Entry, Facts
from assessments.hours.standing import SetAside, Standing
from curriculum.requirements.requirement_set import RequirementSet


@dataclass(frozen=True, slots=True)
class Prospect:
    """Minutes of credit gained, the further minutes saved, and why the rest of the session earns nothing."""

    minutes: int
    saves: int
    reasons: tuple[SetAside, ...]


def would_earn(
    requirements: RequirementSet,
    entries: Iterable[Entry],
    new_entry: Entry,
    facts: Facts = NO_FACTS,
    *,
    as_of: date,
    enrolled: date | None = None,
) -> Prospect:
    """What `new_entry` would add, taken in the state in which it stands.

    The day of assessment is moved to the entry's own day where that is later. Raises `Unmeetable` as `assess` does.
    """
    return prospects(requirements, entries, [(new_entry,)], facts, as_of=as_of, enrolled=enrolled)[0]


def prospects(
    requirements: RequirementSet,
    entries: Iterable[Entry],
    sessions: Iterable[tuple[Entry, ...]],
    facts: Facts = NO_FACTS,
    *,
    as_of: date,
    enrolled: date | None = None,
) -> list[Prospect]:
    """The same for each of several sessions, each taken alone, with all of its entries."""
    entries, before, found = tuple(entries), {}, []
    for session in sessions:
        day = max(as_of, *(one.date for one in session))
        if day not in before:
            before[day] = assess(requirements, entries, facts, as_of=day, enrolled=enrolled)
        after = assess(requirements, (*entries, *session), facts, as_of=day, enrolled=enrolled)
        found.append(
            Prospect(
                minutes=max(0, after.credited_minutes - before[day].credited_minutes),
                saves=max(0, before[day].further_minutes - after.further_minutes),
                reasons=_reasons(after, {one.id for one in session}),
            )
        )
    return found


def _reasons(standing: Standing, entries: set[str]) -> tuple[SetAside, ...]:
    return tuple(one for one in standing.set_aside if one.entry in entries)
