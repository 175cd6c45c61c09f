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
    """Minutes of credit gained, the further minutes saved, and why the rest of the entry earns nothing."""

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
    entries = tuple(entries)
    day = max(as_of, new_entry.date)
    before = assess(requirements, entries, facts, as_of=day, enrolled=enrolled)
    after = assess(requirements, (*entries, new_entry), facts, as_of=day, enrolled=enrolled)
    return Prospect(
        minutes=max(0, after.credited_minutes - before.credited_minutes),
        saves=max(0, before.further_minutes - after.further_minutes),
        reasons=_reasons(after, new_entry.id),
    )


def _reasons(standing: Standing, entry: str) -> tuple[SetAside, ...]:
    return tuple(one for one in standing.set_aside if one.entry == entry)
