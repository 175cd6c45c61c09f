"""A week that is tried: sessions that somebody plans, what each would earn, and where the trainee would stand then."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from assessments.hours.assessing import NO_FACTS, assess
from assessments.hours.entry import Entry, Facts
from assessments.hours.standing import SetAside, Standing
from curriculum.requirements.requirement_set import RequirementSet


@dataclass(frozen=True, slots=True)
class Tried:
    """Both standings are of the last planned day: hours may lapse until then. `earned` and `aside` are by planned entry."""

    before: Standing
    after: Standing
    earned: dict[str, int]
    aside: dict[str, tuple[SetAside, ...]]

    @property
    def saved(self) -> int:
        """By how many minutes the least that is still to do shrinks."""
        return self.before.further_minutes - self.after.further_minutes


def tried(
    requirements: RequirementSet,
    entries: Iterable[Entry],
    planned: Iterable[Entry],
    facts: Facts = NO_FACTS,
    *,
    as_of: date,
    enrolled: date | None = None,
) -> Tried:
    """The standing without and with `planned`, each taken in the state it is given. Raises `Unmeetable` as `assess` does."""
    entries, planned = tuple(entries), tuple(planned)
    day = max([as_of, *(one.date for one in planned)])
    before = assess(requirements, entries, facts, as_of=day, enrolled=enrolled)
    after = assess(requirements, (*entries, *planned), facts, as_of=day, enrolled=enrolled) if planned else before
    names = [one.id for one in planned]
    earned = {name: sum(one.minutes for one in after.given if one.entry == name) for name in names}
    return Tried(
        before, after, earned, {name: tuple(one for one in after.set_aside if one.entry == name) for name in names}
    )
